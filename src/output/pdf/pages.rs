use super::strip::{Keep, Mark, Strip};

/// A strip on its page.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Placed {
    /// Its upper edge, in points below the first line of the page.
    pub(super) top: f32,
    /// The strip.
    pub(super) strip: Strip,
}

/// Puts strips on pages that are `room` points high. A page ends where a strip is free;
/// what hangs together and is higher than a page is broken where it only wishes to stay
/// together, and where even that does not do, anywhere. A page that begins within a table
/// begins with the table's head, which is then no part of what is read.
///
/// At least one page, which may be empty.
pub(super) fn pages(strips: Vec<Strip>, heads: &[Vec<Strip>], room: f32) -> Vec<Vec<Placed>> {
    let mut filler = Filler {
        heads,
        room,
        done: Vec::new(),
        page: Vec::new(),
        used: 0.0,
    };
    filler.place(strips, Keep::Wish);
    filler.done.push(filler.page);
    filler.done
}

struct Filler<'a> {
    heads: &'a [Vec<Strip>],
    room: f32,
    done: Vec<Vec<Placed>>,
    page: Vec<Placed>,
    used: f32,
}

impl Filler<'_> {
    /// Places strips; those that hold on to the next one by `least` or more stay together.
    fn place(&mut self, strips: Vec<Strip>, least: Keep) {
        let mut unit = Vec::new();
        for strip in strips {
            let goes_on = strip.keep >= least;
            unit.push(strip);
            if !goes_on {
                self.place_unit(std::mem::take(&mut unit), least);
            }
        }
        if !unit.is_empty() {
            self.place_unit(unit, least);
        }
    }

    fn place_unit(&mut self, unit: Vec<Strip>, least: Keep) {
        if self.fits(&unit) {
            self.put(unit);
            return;
        }
        if self.height_of_head(&unit) + height(&unit, true) <= self.room {
            self.turn();
            self.begin(&unit);
            self.put(unit);
            return;
        }
        // A page that is nearly full is no place to begin what goes over pages.
        if least == Keep::Wish && self.used > 0.67 * self.room {
            self.turn();
            self.begin(&unit);
        }
        match least {
            Keep::Wish => self.place(unit, Keep::Must),
            Keep::Must | Keep::Free => unit.into_iter().for_each(|strip| self.put_or_turn(strip)),
        }
    }

    fn put_or_turn(&mut self, strip: Strip) {
        let strip = vec![strip];
        if !self.page.is_empty() && !self.fits(&strip) {
            self.turn();
            self.begin(&strip);
        }
        self.put(strip);
    }

    fn fits(&self, unit: &[Strip]) -> bool {
        self.used + height(unit, self.page.is_empty()) <= self.room
    }

    fn height_of_head(&self, unit: &[Strip]) -> f32 {
        self.head(unit).map_or(0.0, |head| height(head, true))
    }

    fn head(&self, unit: &[Strip]) -> Option<&[Strip]> {
        let head = unit.first().and_then(|strip| strip.head)?;
        self.heads.get(head).map(Vec::as_slice)
    }

    fn turn(&mut self) {
        if !self.page.is_empty() {
            self.done.push(std::mem::take(&mut self.page));
            self.used = 0.0;
        }
    }

    /// Sets the head again that belongs to what a new page begins with.
    fn begin(&mut self, unit: &[Strip]) {
        let Some(head) = self.head(unit) else {
            return;
        };
        let again = head.iter().cloned().map(|mut strip| {
            strip.marks.iter_mut().for_each(unread);
            strip
        });
        let again = again.collect();
        self.put(again);
    }

    fn put(&mut self, unit: Vec<Strip>) {
        for strip in unit {
            if !self.page.is_empty() {
                self.used += strip.above;
            }
            let top = self.used;
            self.used += strip.height;
            self.page.push(Placed { top, strip });
        }
    }
}

fn unread(mark: &mut Mark) {
    mark.node = None;
}

fn height(unit: &[Strip], is_top: bool) -> f32 {
    let all: f32 = unit.iter().map(|strip| strip.above + strip.height).sum();
    let first = unit.first().map_or(0.0, |strip| strip.above);
    if is_top { all - first } else { all }
}
