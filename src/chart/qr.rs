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

/// The code of [`qr_code`] as shapes of another drawing: its upper left corner there, and how wide
/// it is with its clear edge. None where the text is too long.
pub(super) fn scaled_code(text: &str, (x, y): (f64, f64), width: f64) -> Vec<Shape> {
    let Ok(code) = QrCode::encode_text(text, QrCodeEcc::Medium) else {
        return Vec::new();
    };
    let module = width / f64::from(code.size() + 2 * QUIET);
    let mut path = String::new();
    runs(&code, |left, top, length| {
        let (left, top) = (x + module * left, y + module * top);
        let wide = module * length;
        path.push_str(&format!(
            "M{left:.4},{top:.4}h{wide:.4}v{module:.4}h-{wide:.4}z"
        ));
    });
    let paper = Shape::Rect {
        x,
        y,
        width,
        height: width,
        class: Class::CodePaper,
        band: None,
    };
    let dark = Shape::Path {
        d: path,
        class: Class::CodeDark,
    };
    vec![paper, dark]
}

/// A path around each run of dark modules in a row.
fn dark_modules(code: &QrCode) -> String {
    let mut path = String::new();
    runs(code, |left, top, length| {
        path.push_str(&format!("M{left},{top}h{length}v1h-{length}z"));
    });
    path
}

/// Tells each run of dark modules in a row: from the left and from the top, the clear edge
/// counted, and how long it is.
fn runs(code: &QrCode, mut tell: impl FnMut(f64, f64, f64)) {
    for y in 0..code.size() {
        let mut x = 0;
        while x < code.size() {
            // Outside of the code all is light, so every run ends.
            let dark = (x..).take_while(|at| code.get_module(*at, y)).count();
            let length = i32::try_from(dark).unwrap_or(i32::MAX);
            if length > 0 {
                tell(
                    f64::from(x + QUIET),
                    f64::from(y + QUIET),
                    f64::from(length),
                );
            }
            x = x.saturating_add(length).saturating_add(1);
        }
    }
}
