use leptos::ev;
use leptos::html::Div;
use leptos::prelude::*;

/// A photo is made no larger than this, of the width of its frame.
const MOST: f64 = 12.0;

/// How large the photo is drawn in its frame. A copy is a handle.
#[derive(Clone, Copy)]
pub(super) struct Zoom {
    /// Of the frame's width; 1 shows all of it.
    scale: RwSignal<f64>,
    /// Fingers on it, by pointer, with where they are.
    fingers: RwSignal<Vec<(i32, (i32, i32))>>,
}

impl Zoom {
    pub(super) fn new() -> Self {
        Self {
            scale: RwSignal::new(1.0),
            fingers: RwSignal::new(Vec::new()),
        }
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
        let after = (before * factor).clamp(1.0, MOST);
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
