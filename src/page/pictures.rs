//! Pictures that a person chooses, made small enough to keep, those that are kept, and drawings as
//! pictures.

use std::cell::RefCell;
use std::rc::Rc;

use js_sys::{Array, Promise};
use leptos::prelude::document;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast as _, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    Blob, BlobPropertyBag, CanvasRenderingContext2d, File, HtmlCanvasElement, HtmlImageElement,
    ImageBitmap, Url, window,
};

use super::keeper::Keeper;
use super::open_file::{bytes_of, size_of};
use crate::present::drawing_files::not_drawn;
use crate::present::pictures::{QUALITY, fitted, not_opened, not_read, too_heavy};
use crate::records::PictureBytes;

/// `file` as a JPEG whose longer side has at most `longest` pixels.
///
/// It is drawn anew, so what a camera notes in the file, such as where it was taken, is
/// left out, and the picture stands upright. *Errors:* in words, for people.
pub(crate) async fn made_small(file: &File, longest: u32) -> Result<Vec<u8>, String> {
    if let Some(text) = too_heavy(size_of(file)) {
        return Err(text);
    }
    let drawn = drawn_small(file, longest).await;
    let blob = drawn.map_err(|why| not_opened(&file.name(), &words(why)))?;
    bytes_of(&blob).await
}

/// The pictures of these digests that are on this device.
///
/// *Errors:* in words, where the store cannot be read.
pub(crate) async fn fetched(
    keeper: Keeper,
    digests: Vec<String>,
) -> Result<Vec<(String, PictureBytes)>, String> {
    let mut found = Vec::new();
    for digest in digests {
        let bytes = keeper.picture(&digest).await;
        let bytes = bytes.map_err(|error| not_read(&error))?;
        found.extend(bytes.map(|bytes| (digest, bytes)));
    }
    Ok(found)
}

async fn drawn_small(file: &File, longest: u32) -> Result<Blob, JsValue> {
    let window = window().ok_or(JsValue::NULL)?;
    let bitmap = JsFuture::from(window.create_image_bitmap_with_blob(file)?).await?;
    let bitmap: ImageBitmap = bitmap.dyn_into()?;
    let (width, height) = fitted(bitmap.width(), bitmap.height(), longest);
    // A JPEG knows no transparency: what shows through is paper.
    let (canvas, context) = paper((width, height))?;
    let (width, height) = (f64::from(width), f64::from(height));
    context.draw_image_with_image_bitmap_and_dw_and_dh(&bitmap, 0.0, 0.0, width, height)?;
    bitmap.close();
    encoded(&canvas, "image/jpeg").await
}

/// A picture of so many dots of a drawing, on white.
///
/// *Errors:* in words, for people.
pub(crate) async fn png_of(svg: &str, dots: (u32, u32)) -> Result<Vec<u8>, String> {
    let drawn = svg_drawn(svg, dots).await;
    let blob = drawn.map_err(|why| not_drawn(&words(why)))?;
    bytes_of(&blob).await
}

async fn svg_drawn(svg: &str, dots: (u32, u32)) -> Result<Blob, JsValue> {
    let properties = BlobPropertyBag::new();
    properties.set_type("image/svg+xml");
    let parts = Array::of1(&JsValue::from_str(svg));
    let blob = Blob::new_with_str_sequence_and_options(&parts, &properties)?;
    let url = Url::create_object_url_with_blob(&blob)?;
    let image = HtmlImageElement::new()?;
    image.set_src(&url);
    let decoded = JsFuture::from(image.decode()).await;
    let (canvas, context) = paper(dots)?;
    let (width, height) = (f64::from(dots.0), f64::from(dots.1));
    let drawn =
        context.draw_image_with_html_image_element_and_dw_and_dh(&image, 0.0, 0.0, width, height);
    Url::revoke_object_url(&url)?;
    decoded?;
    drawn?;
    encoded(&canvas, "image/png").await
}

/// A canvas of so many dots, white.
fn paper(
    (width, height): (u32, u32),
) -> Result<(HtmlCanvasElement, CanvasRenderingContext2d), JsValue> {
    let canvas: HtmlCanvasElement = document().create_element("canvas")?.dyn_into()?;
    canvas.set_width(width);
    canvas.set_height(height);
    let context = canvas.get_context("2d")?.ok_or(JsValue::NULL)?;
    let context: CanvasRenderingContext2d = context.dyn_into()?;
    context.set_fill_style_str("#fff");
    context.fill_rect(0.0, 0.0, f64::from(width), f64::from(height));
    Ok((canvas, context))
}

/// What is on `canvas`, as a file of this kind.
async fn encoded(canvas: &HtmlCanvasElement, media: &'static str) -> Result<Blob, JsValue> {
    let refused: Rc<RefCell<Option<JsValue>>> = Rc::default();
    let promise = {
        let refused = Rc::clone(&refused);
        Promise::new(&mut move |resolve, _| {
            let hear = Closure::once_into_js(move |blob: JsValue| {
                // Nobody can be told of a failure here.
                drop(resolve.call1(&JsValue::NULL, &blob));
            });
            let asked = canvas.to_blob_with_type_and_encoder_options(
                hear.unchecked_ref(),
                media,
                // PNG has no use for it.
                &QUALITY.into(),
            );
            if let Err(why) = asked {
                refused.replace(Some(why));
            }
        })
    };
    if let Some(why) = refused.take() {
        return Err(why);
    }
    JsFuture::from(promise).await?.dyn_into()
}

/// What a browser says of an error; nothing where it says nothing.
fn words(why: JsValue) -> String {
    let error: Result<js_sys::Error, _> = why.dyn_into();
    error.map_or_else(|_| String::new(), |error| String::from(error.message()))
}
