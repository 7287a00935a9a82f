//! What is typed about a photo, as numbers.

use super::form::PhotoHead;
use crate::quantity::{Dimension, read_quantity};

/// The standard uncertainty of a thickness that was measured, in mm, as callipers give it on
/// forged steel; common practice, no source.
const MEASURED: f64 = 0.05;
/// That of one taken from what the piece asks for, in mm: a shoe in tolerance; common practice,
/// no source.
const AS_ASKED: f64 = 0.4;
/// No shoe is thinner or thicker, in mm.
const THICKNESS: (f64, f64) = (2.0, 40.0);
/// No two marks on a ruler are nearer or further apart, in mm.
const LENGTH: (f64, f64) = (10.0, 1_000.0);
/// No scan that can be measured is coarser, and none finer, in dots to the inch.
const DOTS: (f64, f64) = (50.0, 9_600.0);

/// The thickness and its standard uncertainty, in mm.
pub(super) fn thickness(head: &PhotoHead, typed: &str) -> Result<(f64, f64), String> {
    let (mm, unsure) = if typed.trim().is_empty() {
        (head.thickness.base.to_f64() / 1e6, AS_ASKED)
    } else {
        (mm(head, typed)?, MEASURED)
    };
    let (least, most) = THICKNESS;
    if (least..=most).contains(&mm) {
        Ok((mm, unsure))
    } else {
        Err(format!(
            "No shoe is that thick; write {least} mm to {most} mm."
        ))
    }
}

/// The length between two marks, in mm.
pub(super) fn length(head: &PhotoHead, typed: &str) -> Result<f64, String> {
    if typed.trim().is_empty() {
        return Err("Write how far the two marks on the ruler are apart: 100 mm, 4 in.".to_owned());
    }
    let mm = mm(head, typed)?;
    let (least, most) = LENGTH;
    if (least..=most).contains(&mm) {
        Ok(mm)
    } else {
        Err(format!(
            "Between two marks on a ruler lie {least} mm to {most} mm."
        ))
    }
}

fn mm(head: &PhotoHead, typed: &str) -> Result<f64, String> {
    let unit = head.unit.or_usual(Dimension::Length);
    let read = read_quantity(typed, Dimension::Length, unit);
    let quantity = read.map_err(|fault| fault.to_string())?;
    Ok(quantity.base.to_f64() / 1e6)
}

/// Dots per inch; nothing where nothing is typed.
pub(super) fn dots(typed: &str) -> Result<Option<f64>, String> {
    let typed = typed.trim();
    let number = typed.trim_end_matches("dpi").trim_end();
    if typed.is_empty() {
        return Ok(None);
    }
    let (least, most) = DOTS;
    let dots: Option<f64> = number.parse().ok();
    let dots = dots.filter(|dots| (least..=most).contains(dots));
    let wrong = || format!("Write the scanner’s dots per inch as a number, {least} to {most}.");
    dots.map(Some).ok_or_else(wrong)
}
