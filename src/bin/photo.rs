//! How long a shoe takes to be measured from a photo, stage by stage, at 2 and at 12 megapixels:
//! `scripts/bench-photo` sets it beside the same steps of OpenCV. It runs natively, and in a
//! browser.
//!
//! The larger picture is the smaller one enlarged after it was decoded, as nothing here writes a
//! JPEG; so decoding is timed for the smaller alone.

#![allow(missing_docs)]

mod timed;

use std::fmt::Write as _;
use std::hint::black_box;

use evenshod::gauge::decode::{NoPhoto, Photo, decode};
use evenshod::gauge::sheet::Sheet;
use evenshod::gauge::{Ask, Picture, Scale, look};
use num_traits::AsPrimitive;

const PHOTO: &[u8] = include_bytes!("../../tests/data/gauge/photos/bar.jpg");
/// Of the shoe in it, in mm; bar.json beside it says so.
const THICKNESS: f64 = 9.9837;
/// From 1600 × 1200 to 4000 × 3000.
const LARGER: f64 = 2.5;
/// Each is measured for so many milliseconds, or once.
const FOR_MS: f64 = 4000.0;

/// Milliseconds of each stage, the last one all of them, as means.
type Stages = Vec<(String, f64)>;

/// The picture so much larger, with light between pixels by both neighbours each way.
fn enlarged(photo: &Photo) -> Option<Picture> {
    let larger = |count: usize| -> usize { (count as f64 * LARGER).as_() };
    let (width, height) = (larger(photo.width), larger(photo.height));
    let (across, down) = (places(photo.width, width), places(photo.height, height));
    let code = |x: usize, y: usize, colour: usize| -> f32 {
        let code = photo.pixels.get(3 * (y * photo.width + x) + colour);
        code.copied().map_or(0.0, f32::from)
    };
    let mut pixels: Vec<u8> = Vec::with_capacity(3 * width * height);
    for (top, bottom, lower) in down {
        for (left, right, righter) in across.iter().copied() {
            for colour in 0..3 {
                let between = |y| {
                    let (left, right) = (code(left, y, colour), code(right, y, colour));
                    left + (right - left) * righter
                };
                let (above, below) = (between(top), between(bottom));
                pixels.push((above + (below - above) * lower).round().as_());
            }
        }
    }
    Picture::of(width, height, pixels)
}

/// For each of so many pixels both that it lies between, and how far to the second.
fn places(from: usize, to: usize) -> Vec<(usize, usize, f32)> {
    let last = from.saturating_sub(1);
    let place = |at: usize| {
        let place = ((at as f64 + 0.5) / LARGER - 0.5).clamp(0.0, last as f64);
        let first: usize = place.as_();
        (first, last.min(first + 1), (place - place.floor()).as_())
    };
    (0..to).map(place).collect()
}

/// One line a stage.
fn measured(now: &dyn Fn() -> f64) -> Result<String, String> {
    let mut said = String::new();
    let undecoded = |why: NoPhoto| why.to_string();
    let (since, mut times) = (now(), 0.0);
    while times == 0.0 || now() - since < FOR_MS {
        black_box(decode(black_box(PHOTO)).map_err(undecoded)?);
        times += 1.0;
    }
    let _ = writeln!(said, "2 MP, decode: {:.1} ms", (now() - since) / times);
    let photo = decode(PHOTO).map_err(undecoded)?;
    let large = enlarged(&photo).ok_or("no larger picture")?;
    let small = Picture::of(photo.width, photo.height, photo.pixels).ok_or("no picture")?;
    for (size, picture) in [("2 MP", small), ("12 MP", large)] {
        for (stage, took) in stages(now, &picture)? {
            let _ = writeln!(said, "{size}, {stage}: {took:.1} ms");
        }
    }
    Ok(said)
}

fn stages(now: &dyn Fn() -> f64, picture: &Picture) -> Result<Stages, String> {
    let ask = Ask::of(Scale::Sheet(Sheet::A4), (THICKNESS, 0.05));
    let mut sums: Stages = Vec::new();
    let (since, mut times) = (now(), 0.0);
    while times == 0.0 || now() - since < FOR_MS {
        let mut begun: Stages = Vec::new();
        let found = look(black_box(picture), &ask, |stage| {
            begun.push((format!("{stage:?}").to_lowercase(), now()));
        });
        black_box(found.map_err(|why| why.to_string())?);
        begun.push(("all after decoding".to_owned(), now()));
        add(&mut sums, &begun);
        times += 1.0;
    }
    let means = sums.into_iter().map(|(stage, sum)| (stage, sum / times));
    Ok(means.collect())
}

/// Adds how long each stage took, and all, by when each begun; the last one is the end.
fn add(sums: &mut Stages, begun: &[(String, f64)]) {
    let [(_, first), .., (all, end)] = begun else {
        return;
    };
    let ends = begun.iter().skip(1).map(|(_, end)| *end);
    let took = begun
        .iter()
        .zip(ends)
        .map(|((stage, from), to)| (stage, to - from))
        .chain([(all, end - first)]);
    for (stage, took) in took {
        match sums.iter_mut().find(|(name, _)| name == stage) {
            Some((_, sum)) => *sum += took,
            None => sums.push((stage.clone(), took)),
        }
    }
}

fn said(now: &dyn Fn() -> f64) -> String {
    measured(now).unwrap_or_else(|why| format!("nothing was measured: {why}\n"))
}

fn main() {
    timed::show(said);
}
