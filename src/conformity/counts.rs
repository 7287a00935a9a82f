use super::apart::Apart;
use super::draws::share;
use super::key::Key;
use super::key_map::KeyMap;

/// Up to so many counts stand in a table, as they are found there at once.
const MOST_PLACES: usize = 1 << 18;

/// How often each way of a unit came together with each state of the others, where `drawn`
/// gives both for every draw; a state has at most so many `digits`.
pub(super) fn counted(
    digits: u64,
    ways: usize,
    drawn: impl Iterator<Item = (Key, usize)>,
) -> Apart {
    let range = usize::try_from(digits)
        .unwrap_or(usize::MAX)
        .saturating_add(1);
    if range.saturating_mul(2 * ways) <= MOST_PLACES {
        by_table(range, ways, drawn)
    } else {
        by_map(digits, ways, drawn)
    }
}

fn by_table(range: usize, ways: usize, drawn: impl Iterator<Item = (Key, usize)>) -> Apart {
    let mut times = vec![0_u32; 2 * range * ways];
    for (rest, way) in drawn {
        let digits = usize::try_from(rest.digits()).unwrap_or(usize::MAX);
        let state = digits + usize::from(rest.stops()) * range;
        if let Some(times) = times.get_mut(state * ways + way) {
            *times += 1;
        }
    }
    let mut apart = Apart::default();
    for (state, times) in times.chunks(ways.max(1)).enumerate() {
        if times.iter().any(|times| *times > 0) {
            let digits = u64::try_from(state % range).unwrap_or(u64::MAX);
            apart.rest.push(Key::new(digits, state >= range));
            apart.chances.extend(times.iter().copied().map(share));
        }
    }
    apart
}

fn by_map(digits: u64, ways: usize, drawn: impl Iterator<Item = (Key, usize)>) -> Apart {
    let mut places = KeyMap::up_to(digits);
    let mut rest: Vec<Key> = Vec::new();
    let mut times: Vec<u32> = Vec::new();
    for (state, way) in drawn {
        let known = places.get(state);
        let at = known.unwrap_or_else(|| {
            let at = rest.len();
            places.insert(state, at);
            rest.push(state);
            times.resize(times.len() + ways, 0);
            at
        });
        if let Some(times) = times.get_mut(at * ways + way) {
            *times += 1;
        }
    }
    Apart {
        rest,
        chances: times.into_iter().map(share).collect(),
    }
}
