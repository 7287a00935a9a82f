use crate::gauge::Dot;

/// A finger that moves no further than this taps, in pixels of the page; common practice, no
/// source.
const STILL: f64 = 8.0;

/// Tells a tap on a photo from what drags it or makes it larger.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Tap {
    /// The pointer that may tap, with where it went down.
    began: Option<(i32, Dot)>,
}

impl Tap {
    /// A pointer goes down; a second finger makes it no tap.
    pub fn down(&mut self, pointer: i32, is_first: bool, at: Dot) {
        self.began = is_first.then_some((pointer, at));
    }

    /// A pointer goes up; whether it tapped.
    pub fn up(&mut self, pointer: i32, (x, y): Dot) -> bool {
        let began = self.began.take();
        began.is_some_and(|(own, at)| own == pointer && (at.0 - x).hypot(at.1 - y) <= STILL)
    }

    /// The browser takes what was begun for something else.
    pub fn over(&mut self) {
        self.began = None;
    }
}
