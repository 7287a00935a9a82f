//! Measures a shoe from one photo of it, or its drawn outline; see README.md here.

use std::cell::RefCell;
use std::io::Write;
use std::process::ExitCode;
use std::time::Instant;

use evenshod::gauge::decode::decode;
use evenshod::gauge::features::{Heels, Side};
use evenshod::gauge::groove::Fuller;
use evenshod::gauge::sheet::Sheet;
use evenshod::gauge::{
    Ask, Face, Found, Hidden, NailHole, Picture, Scale, Stage, View, Warning, look,
};
use evenshod::piece::Feature;
use evenshod::quantity::{Dimension, Unit, read_quantity};
use kurbo::Point;
use serde_json::{Map, Value, json};

const USAGE: &str = "write: gauge PHOTO --sheet a4|letter|card --thickness \"8.1 mm\" [--face ground|foot] [--hidden PLACES] [--edge \"x,y x,y\"]; lengths in \
     mm or in. In place of --sheet: --ruler \"x1,y1 x2,y2 100 mm\" or --scan 300|file; in place of \
     --thickness: --drawn";
/// The standard uncertainty of a thickness that is typed, in mm, as callipers give it; common
/// practice, no source.
const UNSURE: f64 = 0.05;

/// What the page alone tells: rubrics ask for it, the documented JSON does not have it.
const OF_THE_PAGE: [Feature; 2] = [Feature::BranchChordLeft, Feature::BranchChordRight];

/// What ends without a measure: a call that cannot be read, or a photo that cannot be measured.
enum Ends {
    Call(String),
    Photo { reason: String, message: String },
}

fn main() -> ExitCode {
    let (written, code) = match run() {
        Ok(json) => (writeln!(std::io::stdout(), "{json}"), ExitCode::SUCCESS),
        Err(Ends::Photo { reason, message }) => {
            let json = json!({"ok": false, "reason": reason, "message": message});
            (writeln!(std::io::stdout(), "{json}"), ExitCode::from(3))
        }
        Err(Ends::Call(message)) => (writeln!(std::io::stderr(), "{message}"), ExitCode::from(2)),
    };
    if written.is_err() {
        ExitCode::FAILURE
    } else {
        code
    }
}

fn run() -> Result<Value, Ends> {
    let Call {
        path,
        scale,
        is_drawn,
        thickness,
        face,
        hidden,
        edge_points,
    } = call(std::env::args().skip(1)).map_err(Ends::Call)?;
    let bytes = std::fs::read(&path).map_err(|why| Ends::Call(format!("{path}: {why}")))?;
    let begun = Instant::now();
    let photo = decode(&bytes).map_err(|why| Ends::Photo {
        reason: "no-photo".to_owned(),
        message: why.to_string(),
    })?;
    let (focal, density) = (photo.focal(), photo.density);
    let picture = Picture::of(photo.width, photo.height, photo.pixels)
        .ok_or_else(|| Ends::Call(format!("{path}: not a whole picture")))?;
    let ask = Ask {
        scale,
        face,
        is_drawn,
        thickness: (thickness, UNSURE),
        focal,
        density,
        corners: None,
        is_concave: false,
        hidden,
        edge_points,
    };
    let stages = RefCell::new(vec![("decode", begun)]);
    let found = look(&picture, &ask, |stage| {
        stages.borrow_mut().push((word(stage), Instant::now()));
    })
    .map_err(|why| Ends::Photo {
        reason: why.word().to_owned(),
        message: why.to_string(),
    })?;
    let stages = stages.into_inner();
    let ends = stages
        .iter()
        .skip(1)
        .map(|(_, at)| *at)
        .chain([Instant::now()]);
    let ms: Map<String, Value> = stages
        .iter()
        .zip(ends)
        .map(|((stage, from), to)| ((*stage).to_owned(), json!((to - *from).as_secs_f64() * 1e3)))
        .collect();
    Ok(told(&picture, &ask, &found, ms))
}

/// What was asked for in a call.
struct Call {
    path: String,
    scale: Scale,
    is_drawn: bool,
    /// In mm; of no account for a drawn outline.
    thickness: f64,
    face: Face,
    hidden: Vec<Hidden>,
    edge_points: Vec<Point>,
}

fn call(mut arguments: impl Iterator<Item = String>) -> Result<Call, String> {
    let (mut path, mut scale, mut thickness) = (None, None, None);
    let mut is_drawn = false;
    let mut face = Face::Ground;
    let mut hidden = Vec::new();
    let mut edge_points = Vec::new();
    while let Some(argument) = arguments.next() {
        let mut value = || arguments.next().ok_or_else(|| USAGE.to_owned());
        match argument.as_str() {
            "--sheet" => {
                scale = Some(Scale::Sheet(match value()?.as_str() {
                    "a4" => Sheet::A4,
                    "letter" => Sheet::Letter,
                    "card" => Sheet::Card,
                    other => return Err(format!("{other} is no sheet that is known; {USAGE}")),
                }));
            }
            "--ruler" => scale = Some(ruler(&value()?)?),
            "--scan" => scale = Some(scan(&value()?)?),
            "--drawn" => is_drawn = true,
            "--thickness" => {
                let text = value()?;
                thickness = Some(mm(&text, (2.0, 40.0), "thickness of a shoe")?);
            }
            "--face" => {
                face = match value()?.as_str() {
                    "ground" => Face::Ground,
                    "foot" => Face::Foot,
                    other => return Err(format!("{other} is no face of a shoe; {USAGE}")),
                };
            }
            "--hidden" => hidden = places(&value()?)?,
            "--edge" => edge_points = pixels(&value()?)?,
            _ => path = Some(argument),
        }
    }
    let (Some(path), Some(scale)) = (path, scale) else {
        return Err(USAGE.to_owned());
    };
    is_drawn |= matches!(scale, Scale::Scan(_));
    let thickness = thickness.or(is_drawn.then_some(0.0));
    Ok(Call {
        path,
        scale,
        is_drawn,
        thickness: thickness.ok_or_else(|| USAGE.to_owned())?,
        face,
        hidden,
        edge_points,
    })
}

/// Places in pixels: `x1,y1 x2,y2`.
fn pixels(text: &str) -> Result<Vec<Point>, String> {
    let each = text.split_whitespace().map(|word| {
        pixel(word).ok_or_else(|| format!("{word} is no place; write --edge \"x1,y1 x2,y2\""))
    });
    each.collect()
}

/// A place in pixels: `x,y`.
fn pixel(word: &str) -> Option<Point> {
    let (x, y) = word.split_once(',')?;
    let at = Point::new(x.parse().ok()?, y.parse().ok()?);
    at.is_finite().then_some(at)
}

/// Places where something hides the edge, with commas between.
fn places(text: &str) -> Result<Vec<Hidden>, String> {
    let words = text.split(',').map(str::trim);
    let each = words.map(|word| {
        let all = Hidden::ALL.map(Hidden::word).join(", ");
        Hidden::from_word(word).ok_or_else(|| format!("{word} is no place of these: {all}"))
    });
    each.collect()
}

/// Two places in pixels and how far they are apart: `x1,y1 x2,y2 100 mm`.
fn ruler(text: &str) -> Result<Scale, String> {
    let wrong = || format!("{text} is no ruler; write --ruler \"x1,y1 x2,y2 100 mm\"");
    let mut words = text.trim().splitn(3, ' ');
    let mut place = || words.next().and_then(pixel);
    let ends = place().zip(place()).ok_or_else(wrong)?;
    let long = words.next().ok_or_else(wrong)?;
    Ok(Scale::Ruler {
        ends: Some([ends.0, ends.1].map(|end| (end.x, end.y))),
        mm: mm(long, (10.0, 1_000.0), "length on a ruler")?,
    })
}

/// Dots per inch, or `file` for what the file tells.
fn scan(text: &str) -> Result<Scale, String> {
    if text == "file" {
        return Ok(Scale::Scan(None));
    }
    let dots = text.parse().ok().filter(|dots| *dots > 0.0);
    let dots =
        dots.ok_or_else(|| format!("{text} is no number of dots per inch; write --scan 300"))?;
    Ok(Scale::Scan(Some(dots)))
}

/// A length in mm between two others.
fn mm(text: &str, (least, most): (f64, f64), what: &str) -> Result<f64, String> {
    let read = read_quantity(text, Dimension::Length, Unit::Millimetre);
    let mm = read.map_err(|why| why.to_string())?.base.to_f64() / 1e6;
    if (least..=most).contains(&mm) {
        Ok(mm)
    } else {
        Err(format!(
            "{text} is no {what}; it is {least} mm to {most} mm"
        ))
    }
}

fn word(stage: Stage) -> &'static str {
    match stage {
        Stage::Sheet => "sheet",
        Stage::Steel => "steel",
        Stage::Measures => "measures",
        Stage::Fuller => "fuller",
        Stage::Holes => "holes",
        Stage::Uncertainty => "uncertainty",
    }
}

fn told(picture: &Picture, ask: &Ask, found: &Found, ms: Map<String, Value>) -> Value {
    let camera = &found.seen.camera;
    let pixel = |height: f64, at: Point| {
        let view = View {
            picture,
            camera,
            height,
        };
        view.pixel(at).map_or(Value::Null, |at| json!([at.x, at.y]))
    };
    let corners: Vec<Value> = ask
        .scale
        .corners(camera)
        .iter()
        .map(|at| pixel(0.0, *at))
        .collect();
    let outline: Vec<Value> = found
        .outlines
        .first()
        .map(|outline| {
            outline
                .line
                .iter()
                .map(|at| pixel(ask.height().0, *at))
                .collect()
        })
        .unwrap_or_default();
    let estimates = &found.estimates;
    let uncertainties = estimates.uncertainties();
    let values = estimates.values.iter().zip(&uncertainties);
    let measurements: Map<String, Value> = estimates
        .features
        .iter()
        .zip(values)
        .filter(|(feature, _)| !OF_THE_PAGE.contains(feature))
        .map(|(feature, (value, u))| {
            let (scale, unit) = if feature.is_angle() {
                (1.0_f64.to_degrees(), "deg")
            } else {
                (1.0, "mm")
            };
            let told = json!({"value": value * scale, "u": u * scale, "unit": unit});
            (feature.word().replace(' ', "_"), told)
        })
        .collect();
    let warnings: Vec<String> = found
        .warnings
        .iter()
        .map(|warning| said(*warning))
        .collect();
    json!({
        "ok": true,
        "face": match ask.face {
            Face::Ground => "ground",
            Face::Foot => "foot",
        },
        "plane": match ask.face {
            Face::Ground => "ground face",
            Face::Foot => "foot face",
        },
        "sheet_corners_px": corners,
        "camera": {
            "height_mm": camera.lens().z,
            "tilt_deg": camera.tilt().to_degrees(),
            "focal_px": camera.focal,
        },
        "has_bar": matches!(found.measures.heels, Heels::Bar(_)),
        "measurements": measurements,
        "nail_holes": nail_holes(found),
        "fuller": fullers(found),
        "outline_px": outline,
        "warnings": warnings,
        "ms": ms,
    })
}

/// The holes of each branch, numbered from the toe back.
fn nail_holes(found: &Found) -> Vec<Value> {
    let of = |side: Side, branch: &'static str| {
        let here = found
            .holes
            .iter()
            .filter(move |hole| hole.hole.side == side);
        here.enumerate()
            .map(move |(place, NailHole { hole, unsure, .. })| {
                let is_plain = found.has_plain_edge(hole.centre, hole.to_edge);
                json!({
                    "branch": branch,
                    "index": place + 1,
                    "x": hole.centre.x,
                    "y": hole.centre.y,
                    "to_outer_edge": is_plain.then_some(hole.to_edge),
                    "u": unsure,
                })
            })
    };
    of(Side::Left, "left")
        .chain(of(Side::Right, "right"))
        .collect()
}

/// The fuller of each branch; null where neither has one that is plain.
fn fullers(found: &Found) -> Value {
    let told = |side: Side, fuller: Option<Fuller>| {
        let here = found.holes.iter().filter(|hole| hole.hole.side == side);
        let inset = here.clone().map(|hole| hole.groove).sum::<f64>() / here.count() as f64;
        fuller.map_or(Value::Null, |fuller| {
            json!({
                "start": fuller.start,
                "end": fuller.end,
                "inset": inset.is_finite().then_some(inset),
                "width": fuller.width,
            })
        })
    };
    match (found.fuller.left, found.fuller.right) {
        (None, None) => Value::Null,
        (left, right) => {
            json!({"left": told(Side::Left, left), "right": told(Side::Right, right)})
        }
    }
}

fn said(warning: Warning) -> String {
    match warning {
        Warning::NoFocal(share) => format!(
            "the camera's height is known to {:.0} % only; a photo with its camera data says more",
            share * 100.0
        ),
        Warning::Doubtful(share) => format!(
            "over {:.1} % of the outline the edge is doubtful; turn the light and take it again",
            share * 100.0
        ),
        Warning::Hidden(place) => format!(
            "something hides the edge there: {}; what rests on it is left out",
            place.word()
        ),
        Warning::EdgeByHand(count) => {
            format!("places of the edge that were put right by hand: {count}")
        }
        Warning::Fuller => "where the fuller begins or ends is not plain on every branch; what is \
                            not is left blank"
            .to_owned(),
        Warning::Level => {
            "how far the camera leaned cannot be told from two marks; hold it level".to_owned()
        }
        Warning::Traced => "a traced outline is wider than the shoe, by about half the pencil's \
                            lead on each side"
            .to_owned(),
    }
}
