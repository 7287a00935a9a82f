use statrs::distribution::{Beta, ContinuousCDF};

use super::chance::normal_quantile;
use super::numbers::{at_least, confidence, number};
use super::{Interval, Lacking};

/// Wilson's interval of a share: so many of so many at `level`.
///
/// *Source:* Wilson, J. Am. Stat. Assoc. 22 (1927) 209; Newcombe, Statist. Med. 17 (1998) 857,
/// method 3.
///
/// *Errors:* none at all, more than all, or a level that is no share.
pub fn wilson(some: usize, of: usize, level: f64) -> Result<Interval, Lacking> {
    checked(some, of, level)?;
    let (some, of) = (number(some), number(of));
    let z = normal_quantile((1.0 - level) / 2.0)?;
    let share = some / of;
    let middle = share + z * z / (2.0 * of);
    let off = z * (share * (1.0 - share) / of + (z / (2.0 * of)).powi(2)).sqrt();
    let whole = 1.0 + z * z / of;
    Ok(Interval {
        low: ((middle - off) / whole).max(0.0),
        high: ((middle + off) / whole).min(1.0),
        level,
    })
}

/// The interval of Clopper and Pearson, which holds a share at least as often as it says.
///
/// *Source:* Clopper and Pearson, Biometrika 26 (1934) 404.
///
/// *Errors:* as [`wilson`].
pub fn clopper_pearson(some: usize, of: usize, level: f64) -> Result<Interval, Lacking> {
    checked(some, of, level)?;
    let tail = (1.0 - level) / 2.0;
    let (has, lacks) = (number(some), number(of) - number(some));
    let point = |a: f64, b: f64, share: f64| {
        let law = Beta::new(a, b).map_err(|_| Lacking::NotANumber("share"))?;
        Ok(law.inverse_cdf(share))
    };
    Ok(Interval {
        low: if some == 0 {
            0.0
        } else {
            point(has, lacks + 1.0, tail)?
        },
        high: if some == of {
            1.0
        } else {
            point(has + 1.0, lacks, 1.0 - tail)?
        },
        level,
    })
}

fn checked(some: usize, of: usize, level: f64) -> Result<(), Lacking> {
    at_least(of, 1, "cases")?;
    if some > of {
        return Err(Lacking::NotANumber("more than all"));
    }
    confidence(level).map(drop)
}
