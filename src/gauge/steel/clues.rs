use num_traits::AsPrimitive;

use super::strip::Strip;

/// What is looked at of a place that might be the upper edge.
pub const COUNT: usize = 32;
/// Values of all clues for one place.
pub type Clues = [f32; COUNT];

/// A wall narrower than this is not told from the edge, and from the second value on it is, in
/// mm.
const WALL_SEEN: (f64, f64) = (0.4, 0.8);
/// A wall wider than this has a middle that can be looked at, in mm.
const WALL_WIDE: f64 = 1.0;
/// How far a bevel may reach outside the edge, in mm: first, last and from one to the next.
const BEVEL: (f64, usize, f64) = (0.8, 12, 0.4);

/// The light of the paper itself.
#[derive(Debug, Clone, Copy)]
pub struct Paper {
    level: f32,
    hue: f32,
}

impl Paper {
    /// The bright tenth of what a strip shows.
    pub fn of(strip: &Strip) -> Self {
        let mut levels: Vec<f32> = strip.level.iter().flatten().copied().collect();
        levels.sort_by(f32::total_cmp);
        let level = levels.get(levels.len() * 9 / 10).copied().unwrap_or(0.0);
        let cells = strip.level.iter().flatten().zip(strip.hue.iter().flatten());
        let mut hues: Vec<f32> = cells
            .filter(|(value, _)| **value > level - 0.1)
            .map(|(_, hue)| *hue)
            .collect();
        hues.sort_by(f32::total_cmp);
        Self {
            level,
            hue: hues.get(hues.len() / 2).copied().unwrap_or(0.0),
        }
    }
}

/// Sums along a row, so that the mean of any stretch is two of them.
struct Sums(Vec<f64>);

impl Sums {
    fn of(row: &[f32]) -> Self {
        let mut sum = 0.0;
        let sums = row.iter().map(|value| {
            sum += f64::from(*value);
            sum
        });
        Self(std::iter::once(0.0).chain(sums).collect())
    }

    fn at(&self, place: usize) -> f64 {
        self.0.get(place).copied().unwrap_or(0.0)
    }

    fn mean(&self, from: usize, to: usize) -> f32 {
        ((self.at(to) - self.at(from)) / (to - from) as f64).as_()
    }
}

/// One station's row, ready to be asked about any place on it.
pub struct Row {
    level: Sums,
    rough: Sums,
    steep: Sums,
    hue: Sums,
    count: usize,
    step: f64,
    /// Offsets from the edge to the foot of its wall; none where the wall is hidden.
    wall: usize,
    /// How plainly that wall is seen, from nothing to 1.
    seen: f32,
    /// How far this is a toe, from nothing to 1, where a bevel may be.
    toe: f32,
    paper: Paper,
}

fn steps(long: f64, step: f64) -> i64 {
    (long / step).round_ties_even().as_()
}

/// Grows with a difference, and never beyond 1.
fn bounded(value: f32, half: f32) -> f32 {
    value / (value.abs() + half)
}

impl Row {
    /// *Shape:* `foot` as [`crate::gauge::view::View::foot`] gives it, in mm.
    pub fn of(strip: &Strip, station: usize, foot: f64, toe: f64, paper: Paper) -> Option<Self> {
        let row = |of: &[Vec<f32>]| of.get(station).map(|row| Sums::of(row));
        let (from, to) = WALL_SEEN;
        Some(Self {
            level: row(&strip.level)?,
            rough: row(&strip.rough)?,
            steep: row(&strip.steep)?,
            hue: row(&strip.hue)?,
            count: strip.level.get(station)?.len(),
            step: strip.step,
            wall: steps(foot.max(0.0), strip.step).as_(),
            seen: ((foot - from) / (to - from)).clamp(0.0, 1.0).as_(),
            toe: toe.as_(),
            paper,
        })
    }

    /// The mean from so far to so far outside a place, in mm.
    fn mean(&self, of: &Sums, from: f64, to: f64, at: usize) -> f32 {
        let last: i64 = self.count.saturating_sub(1).as_();
        let at: i64 = at.as_();
        let start = (at + steps(from, self.step)).clamp(0, last);
        let end = (at + steps(to, self.step) + 1)
            .clamp(1, last + 1)
            .max(start + 1);
        of.mean(start.as_(), end.as_())
    }

    /// The mean between two places, without what the blur of both takes.
    fn between(&self, of: &Sums, from: usize, to: usize) -> f32 {
        let (start, end) = (
            (from + 3).min(self.count),
            to.saturating_sub(2).min(self.count),
        );
        let long: i64 = to.as_();
        let long = (long - 4 - AsPrimitive::<i64>::as_(from)).max(1);
        ((of.at(end) - of.at(start)) / long as f64).as_()
    }

    /// What is to be seen if the upper edge were at this offset.
    pub fn clues(&self, edge: usize) -> Clues {
        let (level, rough, steep) = (&self.level, &self.rough, &self.steep);
        let (seen, paper) = (self.seen, self.paper);
        let foot = edge + self.wall;
        let step_at = |at| self.mean(level, 0.15, 0.55, at) - self.mean(level, -0.55, -0.15, at);
        let rough_at = |at| self.mean(rough, 0.2, 0.7, at) - self.mean(rough, -0.7, -0.2, at);
        let (step, foot_step) = (step_at(edge), step_at(foot));
        let wide = self.mean(level, 0.3, 1.5, edge) - self.mean(level, -1.5, -0.3, edge);
        let rough_step = rough_at(edge);
        let is_wide = self.wall as f64 * self.step > WALL_WIDE;
        let middle = |of: &Sums| {
            if is_wide {
                self.between(of, edge, foot)
            } else {
                0.0
            }
        };
        let middle_level = if is_wide {
            middle(level) - paper.level
        } else {
            0.0
        };
        let wall = if is_wide { seen } else { 0.0 };
        let outside = self.mean(level, 0.3, 1.2, foot) - paper.level;
        let inside = self.mean(level, -2.5, -0.3, edge) - paper.level;
        let rim = self.mean(level, -0.5, -0.1, edge) - paper.level;
        let hue = |from, to, at| self.mean(&self.hue, from, to, at);
        let off = |hue: f32| bounded((hue - paper.hue).abs(), 0.1);
        let light = |level: f32| level.min(0.3).exp();
        let (bevel, bevel_rough) = self.bevel(foot);
        [
            bounded(step.max(0.0), 0.25),
            bounded((-step).max(0.0), 0.25),
            bounded(wide, 0.4),
            rough_step,
            seen * bounded(foot_step.max(0.0), 0.25),
            seen * bounded((-foot_step).max(0.0), 0.25),
            seen * rough_at(foot),
            self.mean(rough, -2.5, -0.3, edge),
            self.mean(rough, 0.4, 2.0, foot),
            self.mean(steep, 0.5, 2.0, foot),
            seen * middle(rough),
            seen * middle(steep),
            outside,
            inside,
            seen * middle_level,
            (hue(0.3, 1.2, foot) - hue(-1.5, -0.3, edge)).abs(),
            self.mean(steep, 2.0, 5.0, foot),
            self.mean(steep, -0.1, 0.1, edge),
            seen * self.mean(steep, -0.1, 0.1, foot),
            self.mean(rough, -0.8, -0.2, edge),
            off(hue(0.3, 1.2, foot)),
            off(hue(-2.5, -0.3, edge)),
            wall * off(self.between(&self.hue, edge, foot)),
            light(outside),
            light(inside),
            wall * light(middle_level),
            light(rim),
            self.toe,
            self.toe * bevel,
            self.toe * bevel_rough,
            self.toe * rough_step,
            self.toe * wide,
        ]
    }

    /// How plainly a bevel would end outside the wall's foot, and how rough it would be.
    fn bevel(&self, foot: usize) -> (f32, f32) {
        if self.toe <= 0.0 {
            return (0.0, 0.0);
        }
        let (first, count, apart) = BEVEL;
        let ends = (0..count).map(|place| {
            let at =
                foot + AsPrimitive::<usize>::as_(steps(first + apart * place as f64, self.step));
            let rough =
                self.mean(&self.rough, -0.7, -0.2, at) - self.mean(&self.rough, 0.2, 0.9, at);
            (rough + self.mean(&self.steep, -0.1, 0.1, at), at)
        });
        // Of two alike the nearer one.
        let best = ends.reduce(|best, end| if end.0 > best.0 { end } else { best });
        let Some((plain, end)) = best else {
            return (0.0, 0.0);
        };
        let end = end.min(self.count);
        (plain, self.between(&self.rough, foot, end))
    }
}
