use super::class::Class;
use qrcodegen::{QrCode, QrCodeEcc};

use super::drawing::{Drawing, Shape};

/// Clear modules on each side, as ISO/IEC 18004 asks for (from memory).
const QUIET: i32 = 4;

/// `text` as a QR code (ISO/IEC 18004) that stands up to 15 per cent of damage, the error
/// correction M: one unit a module, the quiet zone in it, all dark modules one path.
///
/// `None` where the text is longer than the largest code holds, some 2,300 bytes.
pub fn qr_code(text: &str, title: String, description: String) -> Option<Drawing> {
    let code = QrCode::encode_text(text, QrCodeEcc::Medium).ok()?;
    let side = f64::from(code.size() + 2 * QUIET);
    let paper = Shape::Rect {
        x: 0.0,
        y: 0.0,
        width: side,
        height: side,
        class: Class::CodePaper,
        band: None,
    };
    let dark = Shape::Path {
        d: dark_modules(&code),
        class: Class::CodeDark,
    };
    Some(Drawing {
        left: 0.0,
        top: 0.0,
        width: side,
        height: side,
        title,
        description,
        shapes: vec![paper, dark],
        readings: Vec::new(),
        days: None,
    })
}

/// A path around each run of dark modules in a row.
fn dark_modules(code: &QrCode) -> String {
    let mut path = String::new();
    for y in 0..code.size() {
        let mut x = 0;
        while x < code.size() {
            // Outside of the code all is light, so every run ends.
            let length = (x..).take_while(|at| code.get_module(*at, y)).count();
            let end = x.saturating_add(i32::try_from(length).unwrap_or(i32::MAX));
            if length > 0 {
                let (left, top) = (x + QUIET, y + QUIET);
                path.push_str(&format!("M{left},{top}h{length}v1h-{length}z"));
            }
            x = end.saturating_add(1);
        }
    }
    path
}
