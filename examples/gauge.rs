//! Measures a shoe from one photo of it on a sheet; see README.md here.

use std::cell::RefCell;
use std::io::Write;
use std::process::ExitCode;
use std::time::Instant;

use evenshod::gauge::decode::decode;
use evenshod::gauge::features::{Heels, Side};
use evenshod::gauge::groove::Fuller;
use evenshod::gauge::sheet::Sheet;
use evenshod::gauge::{Ask, Face, Found, NailHole, Picture, Stage, View, Warning, look};
use evenshod::piece::Feature;
use evenshod::quantity::{Dimension, Unit, read_quantity};
use kurbo::Point;
use serde_json::{Map, Value, json};

const USAGE: &str = "write: gauge PHOTO --sheet a4|letter --thickness \"8.1 mm\" [--face ground|foot]; the thickness in mm or in";
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
    let Called {
        path,
        sheet,
        thickness,
        face,
    } = call(std::env::args().skip(1)).map_err(Ends::Call)?;
    let bytes = std::fs::read(&path).map_err(|why| Ends::Call(format!("{path}: {why}")))?;
    let begun = Instant::now();
    let photo = decode(&bytes).map_err(|why| Ends::Photo {
        reason: "no-photo".to_owned(),
        message: why.to_string(),
    })?;
    let focal = photo.focal();
    let picture = Picture::of(photo.width, photo.height, photo.pixels)
        .ok_or_else(|| Ends::Call(format!("{path}: not a whole picture")))?;
    let ask = Ask {
        sheet,
        face,
        thickness: (thickness, UNSURE),
        focal,
        corners: None,
        is_concave: false,
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

/// What was asked for.
struct Called {
    path: String,
    sheet: Sheet,
    /// In mm.
    thickness: f64,
    face: Face,
}

fn call(mut arguments: impl Iterator<Item = String>) -> Result<Called, String> {
    let (mut path, mut sheet, mut thickness) = (None, None, None);
    let mut face = Face::Ground;
    while let Some(argument) = arguments.next() {
        let mut value = || arguments.next().ok_or_else(|| USAGE.to_owned());
        match argument.as_str() {
            "--sheet" => {
                sheet = Some(match value()?.as_str() {
                    "a4" => Sheet::A4,
                    "letter" => Sheet::Letter,
                    "card" => {
                        return Err("a card beside the shoe cannot be measured by yet; lay the \
                                    shoe on a sheet, and write --sheet a4 or letter"
                            .to_owned());
                    }
                    other => return Err(format!("{other} is no sheet that is known; {USAGE}")),
                });
            }
            "--thickness" => thickness = Some(mm(&value()?)?),
            "--face" => {
                face = match value()?.as_str() {
                    "ground" => Face::Ground,
                    "foot" => Face::Foot,
                    other => return Err(format!("{other} is no face of a shoe; {USAGE}")),
                };
            }
            _ => path = Some(argument),
        }
    }
    match (path, sheet, thickness) {
        (Some(path), Some(sheet), Some(thickness)) => Ok(Called {
            path,
            sheet,
            thickness,
            face,
        }),
        _ => Err(USAGE.to_owned()),
    }
}

/// A length in mm that may be the thickness of a shoe.
fn mm(text: &str) -> Result<f64, String> {
    let read = read_quantity(text, Dimension::Length, Unit::Millimetre);
    let mm = read.map_err(|why| why.to_string())?.base.to_f64() / 1e6;
    if (2.0..=40.0).contains(&mm) {
        Ok(mm)
    } else {
        Err(format!(
            "{text} is no thickness of a shoe; it is 2 mm to 40 mm"
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
        .sheet
        .corners()
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
                .map(|at| pixel(ask.thickness.0, *at))
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
        "nail_holes": nail_holes(&found.holes),
        "fuller": fullers(found),
        "outline_px": outline,
        "warnings": warnings,
        "ms": ms,
    })
}

/// The holes of each branch, numbered from the toe back.
fn nail_holes(holes: &[NailHole]) -> Vec<Value> {
    let of = |side: Side, branch: &'static str| {
        let here = holes.iter().filter(move |hole| hole.hole.side == side);
        here.enumerate()
            .map(move |(place, NailHole { hole, unsure, .. })| {
                json!({
                    "branch": branch,
                    "index": place + 1,
                    "x": hole.centre.x,
                    "y": hole.centre.y,
                    "to_outer_edge": hole.to_edge,
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
        Warning::Fuller => "where the fuller begins or ends is not plain on every branch; what is \
                            not is left blank"
            .to_owned(),
    }
}
