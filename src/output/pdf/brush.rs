use krilla::color::{luma, rgb};
use krilla::geom::{Path, PathBuilder, Point, Rect, Size};
use krilla::image::Image;
use krilla::num::NormalizedF32;
use krilla::paint::{Fill, FillRule, LineCap, LineJoin, Paint, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{GlyphId, KrillaGlyph};
use kurbo::{BezPath, PathEl};
use num_traits::ToPrimitive;

use super::ink::Ink;
use super::line::Run;
use super::press::Fonts;
use super::strip::{Outline, Pen};
use crate::records::Media;

/// How far paper shines around words with a halo, of their size.
const HALO: f32 = 0.28;

/// Draws words from a point on their base line.
pub(super) fn draw_words(
    surface: &mut Surface<'_>,
    fonts: &Fonts,
    at: Point,
    run: &Run,
    has_halo: bool,
) {
    let glyphs = run.glyphs.iter().map(|glyph| {
        KrillaGlyph::new(
            GlyphId::new(glyph.id),
            glyph.advance,
            glyph.right,
            glyph.up,
            0.0,
            glyph.start..glyph.end,
            None,
        )
    });
    let glyphs: Vec<KrillaGlyph> = glyphs.collect();
    if glyphs.is_empty() {
        return;
    }
    let (font, size) = (fonts.of(run.style.face), run.style.size);
    if has_halo {
        let mut pen = Pen::new(Ink::WHITE, HALO * size);
        pen.is_round = true;
        surface.set_fill(None);
        surface.set_stroke(Some(stroke(pen)));
        surface.draw_glyphs(at, &glyphs, font.clone(), &run.text, size, true);
    }
    surface.set_stroke(None);
    surface.set_fill(Some(fill(run.style.ink)));
    surface.draw_glyphs(at, &glyphs, font, &run.text, size, false);
}

/// Cuts off what is drawn from now on outside a frame whose upper left corner is the
/// origin; whether there is such a frame, to be popped again.
pub(super) fn push_frame(surface: &mut Surface<'_>, (width, height): (f32, f32)) -> bool {
    let mut frame = PathBuilder::new();
    let rect = Rect::from_xywh(0.0, 0.0, width, height);
    if let Some(rect) = rect {
        frame.push_rect(rect);
    }
    let Some(path) = frame.finish() else {
        return false;
    };
    surface.push_clip_path(&path, &FillRule::EvenOdd);
    true
}

/// Draws a shape around the origin; one without extent is left out.
pub(super) fn draw_shape(surface: &mut Surface<'_>, outline: &Outline) {
    let Some(path) = path(&outline.path) else {
        return;
    };
    surface.set_fill(outline.fill.map(fill));
    surface.set_stroke(outline.pen.map(stroke));
    surface.draw_path(&path);
}

fn paint(Ink(red, green, blue): Ink) -> Paint {
    if red == green && green == blue {
        luma::Color::new(red).into()
    } else {
        rgb::Color::new(red, green, blue).into()
    }
}

fn fill(ink: Ink) -> Fill {
    Fill {
        paint: paint(ink),
        opacity: NormalizedF32::ONE,
        rule: FillRule::EvenOdd,
    }
}

fn stroke(pen: Pen) -> Stroke {
    let is_dashed = pen.dash.iter().any(|length| *length > 0.0);
    let (line_cap, line_join) = if pen.is_round {
        (LineCap::Round, LineJoin::Round)
    } else {
        (LineCap::Butt, LineJoin::Miter)
    };
    Stroke {
        paint: paint(pen.ink),
        width: pen.width,
        line_cap,
        line_join,
        dash: is_dashed.then(|| StrokeDash {
            array: pen.dash.to_vec(),
            offset: 0.0,
        }),
        ..Stroke::default()
    }
}

fn path(path: &BezPath) -> Option<Path> {
    let mut builder = PathBuilder::new();
    let single = |point: kurbo::Point| Some((point.x.to_f32()?, point.y.to_f32()?));
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(to) => {
                let (x, y) = single(to)?;
                builder.move_to(x, y);
            }
            PathEl::LineTo(to) => {
                let (x, y) = single(to)?;
                builder.line_to(x, y);
            }
            PathEl::QuadTo(by, to) => {
                let ((bx, by), (x, y)) = (single(by)?, single(to)?);
                builder.quad_to(bx, by, x, y);
            }
            PathEl::CurveTo(by, and, to) => {
                let ((bx, by), (ax, ay), (x, y)) = (single(by)?, single(and)?, single(to)?);
                builder.cubic_to(bx, by, ax, ay, x, y);
            }
            PathEl::ClosePath => builder.close(),
        }
    }
    builder.finish()
}

/// A picture in this width and height in points. One that cannot be opened was laid as a
/// frame, so that nothing is left to say here.
pub(super) fn draw_picture(surface: &mut Surface<'_>, bytes: &[u8], (width, height): (f32, f32)) {
    let data = || bytes.to_vec().into();
    let image = match Media::of(bytes) {
        Some(Media::Jpeg) => Image::from_jpeg(data(), true),
        Some(Media::Png) => Image::from_png(data(), true),
        Some(Media::Webp) => Image::from_webp(data(), true),
        None => return,
    };
    if let (Ok(image), Some(size)) = (image, Size::from_wh(width, height)) {
        surface.draw_image(image, size);
    }
}
