//! Any bytes as a photo: opened, and where they are a picture, a shoe is looked for in it.

#![no_main]

use evenshod::gauge::decode::decode;
use evenshod::gauge::sheet::Sheet;
use evenshod::gauge::{Ask, Face, Hidden, Picture, Scale, look, shown};
use libfuzzer_sys::fuzz_target;

/// A picture is looked at with so many pixels at most, so that a run takes no longer than a tenth
/// of a second or two.
const MOST: usize = 300_000;

/// By the last byte, which no picture needs: what is asked of it.
fn ask(last: u8, size: (usize, usize)) -> Ask {
    let (wide, high) = (size.0 as f64, size.1 as f64);
    let scale = match last % 8 {
        0..=2 => Scale::Sheet(Sheet::A4),
        3 => Scale::Sheet(Sheet::Letter),
        4 => Scale::Sheet(Sheet::Card),
        5 => Scale::Ruler {
            ends: Some([(0.3 * wide, 0.5 * high), (0.7 * wide, 0.5 * high)]),
            mm: 100.0,
        },
        6 => Scale::Scan(None),
        _ => Scale::Scan(Some(75.0)),
    };
    // Anywhere on the picture, off it, and twice at one place.
    let shares = [(0.5, 0.3), (0.52, 0.3), (0.3, 0.5), (0.3, 0.5), (-3.0, 9.0)];
    let marked = shares.into_iter().filter(|_| last & 128 != 0);
    Ask {
        face: if last & 8 == 0 { Face::Ground } else { Face::Foot },
        is_drawn: last & 16 != 0,
        is_concave: last & 32 != 0,
        hidden: Hidden::ALL.into_iter().filter(|_| last & 64 != 0).collect(),
        edge_points: marked.map(|(x, y)| (x * wide, y * high).into()).collect(),
        ..Ask::of(scale, (10.0, 0.05))
    }
}

/// A picture of no more than so many pixels, of which every so-manieth is taken.
fn small(width: usize, height: usize, pixels: Vec<u8>) -> (usize, usize, Vec<u8>) {
    let step = (1..).find(|step| width.div_ceil(*step) * height.div_ceil(*step) <= MOST);
    let step = step.unwrap_or(1);
    let rows = pixels.chunks_exact(3 * width.max(1)).step_by(step);
    let taken = rows.flat_map(|row| row.chunks_exact(3).step_by(step).flatten().copied());
    let taken = taken.collect();
    (width.div_ceil(step), height.div_ceil(step), taken)
}

fuzz_target!(|bytes: &[u8]| {
    let Ok(photo) = decode(bytes) else { return };
    let (focal, density) = (photo.focal(), photo.density);
    let (width, height, pixels) = small(photo.width, photo.height, photo.pixels);
    let Some(picture) = Picture::of(width, height, pixels) else {
        return;
    };
    let ask = Ask {
        focal,
        density,
        ..ask(bytes.last().copied().unwrap_or(0), (width, height))
    };
    if let Ok(found) = look(&picture, &ask, |_| ()) {
        let shown = shown(&picture, &ask, &found);
        assert!(shown.measured.iter().all(|one| one.value.is_finite()));
    }
});
