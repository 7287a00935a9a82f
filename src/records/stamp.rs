use std::fmt;

use serde::{Deserialize, Deserializer, Serialize, de};
use sha2::{Digest as _, Sha256};

/// The last millisecond of the year 9999. Later stamps are refused on reading:
/// nothing honest makes them, and nothing could be written after them.
pub const LAST_MILLISECOND: u64 = 253_402_300_799_999;

/// Who writes: one device and one tab on it.
///
/// *What is guaranteed:* nothing by itself. The page makes it once for each tab
/// from the device's name and eight random bytes, so that two tabs on one tablet
/// never make the same [`Stamp`].
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Device(String);

impl Device {
    /// `name` as people call the device, made unlike any other by `random`.
    pub fn new(name: &str, random: [u8; 8]) -> Self {
        Self(format!("{}~{}", name.trim(), super::seal::hex(&random)))
    }

    /// The whole text, name and random part.
    pub fn text(&self) -> &str {
        &self.0
    }

    /// The name as people call the device.
    pub fn name(&self) -> &str {
        self.0.rsplit_once('~').map_or(&self.0, |(name, _)| name)
    }
}

impl fmt::Display for Device {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// When and by whom a record was written: a hybrid logical clock's reading.
///
/// *Compare:* by time, then counter, then device, so any two stamps have an
/// order that every device agrees on. *Source:* Kulkarni, Demirbas, Madappa,
/// Avva and Leone 2014, "Logical physical clocks" (from memory).
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stamp {
    /// Milliseconds since 1970 UTC, or later where a later stamp was seen.
    #[serde(deserialize_with = "honest_time")]
    pub time: u64,
    /// Tells stamps of one millisecond apart.
    pub counter: u32,
    /// Who wrote.
    pub device: Device,
}

impl Stamp {
    /// The first stamp of a ledger that holds nothing yet.
    pub fn first(now_ms: u64, device: Device) -> Self {
        Self {
            time: now_ms.min(LAST_MILLISECOND),
            counter: 0,
            device,
        }
    }

    /// A stamp later than `previous`, the latest one that this writer has seen
    /// or made, at the wall clock's `now_ms`.
    ///
    /// A clock set back never makes a stamp go back, because the counter goes on
    /// from the latest seen. A clock set years ahead does not win for ever,
    /// because every device that sees its stamp goes on from there.
    pub fn next(previous: &Self, now_ms: u64, device: Device) -> Self {
        if now_ms > previous.time && now_ms <= LAST_MILLISECOND {
            return Self::first(now_ms, device);
        }
        let (time, counter) = match previous.counter.checked_add(1) {
            Some(counter) => (previous.time, counter),
            None if previous.time < LAST_MILLISECOND => (previous.time.saturating_add(1), 0),
            None => (previous.time, u32::MAX),
        };
        Self {
            time,
            counter,
            device,
        }
    }

    /// The stamp so many places after this one, for what a command makes several of.
    #[must_use]
    pub fn following(&self, places: u32) -> Self {
        (0..places).fold(self.clone(), |before, _| {
            Self::next(&before, self.time, self.device.clone())
        })
    }

    /// This stamp where it is later than `replaced`, else the next one after
    /// `replaced`: what a record that replaces another must carry to win.
    #[must_use]
    pub fn after(&self, replaced: &Self) -> Self {
        if self > replaced {
            self.clone()
        } else {
            Self::next(replaced, self.time, self.device.clone())
        }
    }

    /// A number above 0 for the `ordinal`-th thing that one command adds to a record: the same
    /// however often the command is applied, and hardly ever that of another command.
    pub(crate) fn number(&self, ordinal: u8) -> u32 {
        let [.., a, b, c, d] = self.id_bytes(ordinal);
        u32::from_be_bytes([a, b, c, d]).max(1)
    }

    /// Ten bytes for the `ordinal`-th id that one command makes.
    ///
    /// The counter comes first, so that ids of one millisecond sort as they were
    /// made; the rest is a digest of the stamp, so that a command that is applied
    /// again on a fresh ledger makes the same ids.
    pub(super) fn id_bytes(&self, ordinal: u8) -> [u8; 10] {
        let mut hasher = Sha256::new();
        hasher.update(b"id ");
        hasher.update([ordinal]);
        hasher.update(self.time.to_be_bytes());
        hasher.update(self.counter.to_be_bytes());
        hasher.update(self.device.text().as_bytes());
        let mut bytes = [0; 10];
        for (byte, random) in bytes.iter_mut().zip(hasher.finalize()) {
            *byte = random;
        }
        let [_, _, low, lowest] = self.counter.min(0x0fff).to_be_bytes();
        let [first, second, ..] = &mut bytes;
        (*first, *second) = (low, lowest);
        bytes
    }
}

fn honest_time<'de, D: Deserializer<'de>>(from: D) -> Result<u64, D::Error> {
    let time = u64::deserialize(from)?;
    if time > LAST_MILLISECOND {
        return Err(de::Error::custom(format!(
            "stamp time {time} lies after the year 9999"
        )));
    }
    Ok(time)
}
