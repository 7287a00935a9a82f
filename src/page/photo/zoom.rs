use leptos::ev;
use leptos::html::Div;
use leptos::prelude::*;

use crate::gauge::Dot;
use crate::present::photo::{FirstSight, LARGEST};

/// How large the photo is drawn in its frame. A copy is a handle.
#[derive(Clone, Copy)]
pub(super) struct Zoom {
    /// Of the frame's width; 1 shows all of it.
    scale: RwSignal<f64>,
    /// Fingers on it, by pointer, with where they are.
    fingers: RwSignal<Vec<(i32, (i32, i32))>>,
    /// What lies in the middle of the frame at first, as a share of the photo.
    middle: Dot,
}

impl Zoom {
    /// As a photo is seen first.
    pub(super) fn on(FirstSight { scale, middle }: FirstSight) -> Self {
        Self {
            scale: RwSignal::new(scale),
            fingers: RwSignal::new(Vec::new()),
            middle,
        }
    }

    /// Whether it can become larger by a factor above 1, or smaller by one below.
    pub(super) fn can(self, factor: f64) -> bool {
        let scale = self.scale.get_untracked();
        if factor > 1.0 {
            scale < LARGEST
        } else {
            scale > 1.0
        }
    }

    /// Moves what is to be in the middle there, once the frame stands.
    pub(super) fn begin(self, frame: NodeRef<Div>) {
        frame.on_load(move |frame| {
            request_animation_frame(move || {
                let scale = self.scale.get_untracked();
                let (across, down) = (
                    f64::from(frame.client_width()),
                    f64::from(frame.client_height()),
                );
                let high = f64::from(frame.scroll_height());
                frame.set_scroll_left(whole(self.middle.0 * across * scale - across / 2.0));
                frame.set_scroll_top(whole(self.middle.1 * high - down / 2.0));
            });
        });
    }

    /// The photo's width, for a style.
    pub(super) fn width(self) -> String {
        format!("{:.1}%", self.scale.get() * 100.0)
    }

    pub(super) fn whole(self) {
        self.scale.set(1.0);
    }

    /// So many times as large, about a place in the window; its middle where none is named.
    pub(super) fn by(self, frame: NodeRef<Div>, factor: f64, about: Option<(i32, i32)>) {
        let before = self.scale.get_untracked();
        let after = (before * factor).clamp(1.0, LARGEST);
        let Some(frame) = frame.get_untracked() else {
            return;
        };
        let seen = frame.get_bounding_client_rect();
        let (across, down) = about.map_or((seen.width() / 2.0, seen.height() / 2.0), |(x, y)| {
            (f64::from(x) - seen.left(), f64::from(y) - seen.top())
        });
        let (left, top) = (
            f64::from(frame.scroll_left()),
            f64::from(frame.scroll_top()),
        );
        self.scale.set(after);
        // What lay there lies there still, once the new width stands.
        request_animation_frame(move || {
            let grown = after / before;
            frame.set_scroll_left(whole((left + across) * grown - across));
            frame.set_scroll_top(whole((top + down) * grown - down));
        });
    }

    pub(super) fn finger_down(self, event: &ev::PointerEvent) {
        if event.pointer_type() == "touch" {
            let finger = (event.pointer_id(), (event.client_x(), event.client_y()));
            self.fingers.update(|fingers| fingers.push(finger));
        }
    }

    pub(super) fn finger_up(self, event: &ev::PointerEvent) {
        let id = event.pointer_id();
        self.fingers
            .update(|fingers| fingers.retain(|(own, _)| *own != id));
    }

    /// Two fingers that move apart make the photo larger about the place between them.
    pub(super) fn finger_moves(self, frame: NodeRef<Div>, event: &ev::PointerEvent) {
        let id = event.pointer_id();
        let before = self.fingers.get_untracked();
        self.fingers.update(|fingers| {
            if let Some(finger) = fingers.iter_mut().find(|(own, _)| *own == id) {
                finger.1 = (event.client_x(), event.client_y());
            }
        });
        let after = self.fingers.get_untracked();
        if let (Some((was, _)), Some((is, middle))) = (apart(&before), apart(&after))
            && was > 0.0
        {
            event.prevent_default();
            self.by(frame, is / was, Some(middle));
        }
    }
}

/// How far two fingers are apart, and the place between them.
fn apart(fingers: &[(i32, (i32, i32))]) -> Option<(f64, (i32, i32))> {
    let [(_, one), (_, other)] = fingers else {
        return None;
    };
    let far = f64::from(one.0 - other.0).hypot(f64::from(one.1 - other.1));
    let middle = (i32::midpoint(one.0, other.0), i32::midpoint(one.1, other.1));
    Some((far, middle))
}

fn whole(pixels: f64) -> i32 {
    num_traits::AsPrimitive::as_(pixels.round())
}
