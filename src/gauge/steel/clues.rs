use std::ops::Range;

use num_traits::AsPrimitive;

use super::strip::Strip;
use crate::gauge::network::Table;

/// What is looked at of a place that might be the upper edge.
pub const COUNT: usize = 64;
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
        let level = ranked(&mut levels, |count| count * 9 / 10);
        let cells = strip.level.iter().flatten().zip(strip.hue.iter().flatten());
        let mut hues: Vec<f32> = cells
            .filter(|(value, _)| **value > level - 0.1)
            .map(|(_, hue)| *hue)
            .collect();
        Self {
            level,
            hue: ranked(&mut hues, |count| count / 2),
        }
    }
}

/// The value that has so many of them all below it; nothing of none.
fn ranked(values: &mut [f32], rank: impl Fn(usize) -> usize) -> f32 {
    let rank = rank(values.len());
    if rank >= values.len() {
        return 0.0;
    }
    *values.select_nth_unstable_by(rank, f32::total_cmp).1
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
    calm: Sums,
    calm_rough: Sums,
    calm_hue: Sums,
    calmer: Sums,
    calmer_rough: Sums,
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

/// Means over stretches beside each place, and by how much one is more than another.
struct Means {
    step: Vec<f32>,
    foot_step: Vec<f32>,
    wide: Vec<f32>,
    rough_step: Vec<f32>,
    foot_rough_step: Vec<f32>,
    outside: Vec<f32>,
    inside: Vec<f32>,
    rim: Vec<f32>,
    inside_rough: Vec<f32>,
    outside_rough: Vec<f32>,
    rim_rough: Vec<f32>,
    outside_steep: Vec<f32>,
    far_steep: Vec<f32>,
    edge_steep: Vec<f32>,
    foot_steep: Vec<f32>,
    outside_hue: Vec<f32>,
    rim_hue: Vec<f32>,
    inside_hue: Vec<f32>,
    calm_step: Vec<f32>,
    calm_foot_step: Vec<f32>,
    beside: Vec<f32>,
    beside_rough: Vec<f32>,
    deep: Vec<f32>,
    deep_rough: Vec<f32>,
    deep_hue: Vec<f32>,
    farther: Vec<f32>,
    far: Vec<f32>,
    far_rough: Vec<f32>,
    farther_hue: Vec<f32>,
    calm_rim: Vec<f32>,
    behind_rim: Vec<f32>,
    calm_rough_step: Vec<f32>,
    calm_foot_rough_step: Vec<f32>,
    calm_hue_step: Vec<f32>,
    calm_foot_hue_step: Vec<f32>,
    calm_wide: Vec<f32>,
    calmer_step: Vec<f32>,
    calmer_foot_step: Vec<f32>,
    calmer_rough_step: Vec<f32>,
    calmer_foot_rough_step: Vec<f32>,
    calmer_rim: Vec<f32>,
    behind_calmer_rim: Vec<f32>,
    calmer_beside: Vec<f32>,
}

fn less(mut values: Vec<f32>, by: &[f32]) -> Vec<f32> {
    for (value, by) in values.iter_mut().zip(by) {
        *value -= by;
    }
    values
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
            calm: row(&strip.calm)?,
            calm_rough: row(&strip.calm_rough)?,
            calm_hue: row(&strip.calm_hue)?,
            calmer: row(&strip.calmer)?,
            calmer_rough: row(&strip.calmer_rough)?,
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
        let (start, end) = self.window(steps(from, self.step), steps(to, self.step), at);
        of.mean(start, end)
    }

    /// Where a stretch that lies from so many to so many offsets outside a place begins and
    /// ends, as much of it as the row has.
    fn window(&self, from: i64, to: i64, at: usize) -> (usize, usize) {
        let last: i64 = self.count.saturating_sub(1).as_();
        let at: i64 = at.as_();
        let start = (at + from).clamp(0, last);
        let end = (at + to + 1).clamp(1, last + 1).max(start + 1);
        (start.as_(), end.as_())
    }

    /// The mean from so far to so far outside each place, in mm.
    ///
    /// Places whose whole stretch is there lie side by side and are taken at once, as that is
    /// much faster.
    #[cfg_attr(target_arch = "wasm32", target_feature(enable = "simd128"))]
    fn means(&self, of: &Sums, from: f64, to: f64, places: Range<usize>) -> Vec<f32> {
        let (from, to) = (steps(from, self.step), steps(to, self.step));
        let long: usize = (to - from + 1).as_();
        let one = |at: usize| {
            let (start, end) = self.window(from, to, at);
            of.mean(start, end)
        };
        // The first and the end of those places.
        let first: usize = (-from).max(0).as_();
        let first = first.clamp(places.start, places.end);
        let end: usize = (AsPrimitive::<i64>::as_(self.count) - to).max(0).as_();
        let end = end.clamp(first, places.end);
        let start: usize = (AsPrimitive::<i64>::as_(first) + from).max(0).as_();
        let share = 1.0 / long as f64;
        let sums = |from: usize| of.0.get(from..).unwrap_or_default().iter();
        let whole = sums(start).zip(sums(start + long)).take(end - first);
        let mut means: Vec<f32> = Vec::with_capacity(places.len());
        means.extend((places.start..first).map(one));
        means.extend(whole.map(|(below, above)| AsPrimitive::<f32>::as_((above - below) * share)));
        means.extend((end..places.end).map(one));
        means
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

    /// What is to be seen if the upper edge were at each of these offsets.
    pub fn table(&self, edges: Range<usize>) -> Table<COUNT> {
        let means = self.all_means(edges.clone());
        Table::of(edges.len(), |place| {
            self.clues(edges.start + place, &means, place)
        })
    }

    fn all_means(&self, edges: Range<usize>) -> Means {
        let (level, calm, rough) = (&self.level, &self.calm, &self.rough);
        let (steep, hue) = (&self.steep, &self.hue);
        let (calm_rough, calm_hue) = (&self.calm_rough, &self.calm_hue);
        let (calmer, calmer_rough) = (&self.calmer, &self.calmer_rough);
        let feet = edges.start + self.wall..edges.end + self.wall;
        let at_edge = |of, from, to| self.means(of, from, to, edges.clone());
        let at_foot = |of, from, to| self.means(of, from, to, feet.clone());
        // By how much more there is from so far to so far outside than as far inside.
        let across_edge =
            |of, from: f64, to: f64| less(at_edge(of, from, to), &at_edge(of, -to, -from));
        let across_foot =
            |of, from: f64, to: f64| less(at_foot(of, from, to), &at_foot(of, -to, -from));
        Means {
            step: across_edge(level, 0.15, 0.55),
            foot_step: across_foot(level, 0.15, 0.55),
            wide: across_edge(level, 0.3, 1.5),
            rough_step: across_edge(rough, 0.2, 0.7),
            foot_rough_step: across_foot(rough, 0.2, 0.7),
            outside: at_foot(level, 0.3, 1.2),
            inside: at_edge(level, -2.5, -0.3),
            rim: at_edge(level, -0.5, -0.1),
            inside_rough: at_edge(rough, -2.5, -0.3),
            outside_rough: at_foot(rough, 0.4, 2.0),
            rim_rough: at_edge(rough, -0.8, -0.2),
            outside_steep: at_foot(steep, 0.5, 2.0),
            far_steep: at_foot(steep, 2.0, 5.0),
            edge_steep: at_edge(steep, -0.1, 0.1),
            foot_steep: at_foot(steep, -0.1, 0.1),
            outside_hue: at_foot(hue, 0.3, 1.2),
            rim_hue: at_edge(hue, -1.5, -0.3),
            inside_hue: at_edge(hue, -2.5, -0.3),
            calm_step: across_edge(calm, 0.1, 0.5),
            calm_foot_step: across_foot(calm, 0.1, 0.5),
            beside: at_edge(level, 0.3, 1.5),
            beside_rough: at_edge(rough, 0.3, 1.5),
            deep: at_edge(level, -6.0, -3.0),
            deep_rough: at_edge(rough, -6.0, -3.0),
            deep_hue: at_edge(hue, -6.0, -3.0),
            farther: at_foot(level, 1.2, 3.0),
            far: at_foot(level, 3.0, 6.0),
            far_rough: at_foot(rough, 2.0, 6.0),
            farther_hue: at_foot(hue, 1.2, 4.0),
            calm_rim: at_edge(calm, -0.4, 0.0),
            behind_rim: at_edge(calm, -1.6, -0.6),
            calm_rough_step: across_edge(calm_rough, 0.2, 0.7),
            calm_foot_rough_step: across_foot(calm_rough, 0.2, 0.7),
            calm_hue_step: across_edge(calm_hue, 0.1, 0.6),
            calm_foot_hue_step: across_foot(calm_hue, 0.1, 0.6),
            calm_wide: across_edge(calm, 0.5, 2.0),
            calmer_step: across_edge(calmer, 0.1, 0.5),
            calmer_foot_step: across_foot(calmer, 0.1, 0.5),
            calmer_rough_step: across_edge(calmer_rough, 0.2, 0.7),
            calmer_foot_rough_step: across_foot(calmer_rough, 0.2, 0.7),
            calmer_rim: at_edge(calmer, -0.5, 0.0),
            behind_calmer_rim: at_edge(calmer, -1.8, -0.8),
            calmer_beside: at_edge(calmer, 0.3, 1.0),
        }
    }

    /// What is to be seen if the upper edge were at this offset, which is that place of the means.
    fn clues(&self, edge: usize, means: &Means, place: usize) -> Clues {
        let (seen, paper) = (self.seen, self.paper);
        let foot = edge + self.wall;
        let at = |of: &[f32]| of.get(place).copied().unwrap_or(0.0);
        let (step, foot_step) = (at(&means.step), at(&means.foot_step));
        let (wide, rough_step) = (at(&means.wide), at(&means.rough_step));
        let is_wide = self.wall as f64 * self.step > WALL_WIDE;
        let middle = |of: &Sums| {
            if is_wide {
                self.between(of, edge, foot)
            } else {
                0.0
            }
        };
        let middle_level = if is_wide {
            middle(&self.level) - paper.level
        } else {
            0.0
        };
        let wall = if is_wide { seen } else { 0.0 };
        let outside = at(&means.outside) - paper.level;
        let inside = at(&means.inside) - paper.level;
        let rim = at(&means.rim) - paper.level;
        let (outside_hue, inside_hue) = (at(&means.outside_hue), at(&means.inside_hue));
        let off = |hue: f32| bounded((hue - paper.hue).abs(), 0.1);
        let light = |level: f32| level.min(0.3).exp();
        let (bevel, bevel_rough) = self.bevel(foot);
        let (calm_step, calm_foot_step) = (at(&means.calm_step), at(&means.calm_foot_step));
        let (deep_hue, calm_rim) = (at(&means.deep_hue), at(&means.calm_rim));
        let (calmer_step, calmer_rim) = (at(&means.calmer_step), at(&means.calmer_rim));
        let calmer_foot_step = at(&means.calmer_foot_step);
        [
            bounded(step.max(0.0), 0.25),
            bounded((-step).max(0.0), 0.25),
            bounded(wide, 0.4),
            rough_step,
            seen * bounded(foot_step.max(0.0), 0.25),
            seen * bounded((-foot_step).max(0.0), 0.25),
            seen * at(&means.foot_rough_step),
            at(&means.inside_rough),
            at(&means.outside_rough),
            at(&means.outside_steep),
            seen * middle(&self.rough),
            seen * middle(&self.steep),
            outside,
            inside,
            seen * middle_level,
            (outside_hue - at(&means.rim_hue)).abs(),
            at(&means.far_steep),
            at(&means.edge_steep),
            seen * at(&means.foot_steep),
            at(&means.rim_rough),
            off(outside_hue),
            off(inside_hue),
            wall * off(middle(&self.hue)),
            light(outside),
            light(inside),
            wall * light(middle_level),
            light(rim),
            self.toe,
            self.toe * bevel,
            self.toe * bevel_rough,
            self.toe * rough_step,
            self.toe * wide,
            bounded(calm_step.max(0.0), 0.15),
            bounded((-calm_step).max(0.0), 0.15),
            seen * bounded(calm_foot_step.max(0.0), 0.15),
            seen * bounded((-calm_foot_step).max(0.0), 0.15),
            bounded(at(&means.beside) - paper.level, 0.5),
            at(&means.beside_rough),
            light(at(&means.deep) - paper.level),
            at(&means.deep_rough),
            off(deep_hue),
            (inside_hue - deep_hue).abs(),
            light(at(&means.farther) - paper.level),
            light(at(&means.far) - paper.level),
            at(&means.far_rough),
            off(at(&means.farther_hue)),
            light(calm_rim - paper.level),
            bounded(calm_rim - at(&means.behind_rim), 0.2),
            at(&means.calm_rough_step),
            seen * at(&means.calm_foot_rough_step),
            at(&means.calm_hue_step),
            seen * at(&means.calm_foot_hue_step),
            bounded(at(&means.calm_wide), 0.4),
            seen * light(self.narrow_wall(edge, foot) - paper.level),
            bounded(calmer_step.max(0.0), 0.1),
            bounded((-calmer_step).max(0.0), 0.1),
            seen * bounded(calmer_foot_step.max(0.0), 0.1),
            seen * bounded((-calmer_foot_step).max(0.0), 0.1),
            at(&means.calmer_rough_step),
            seen * at(&means.calmer_foot_rough_step),
            light(calmer_rim - paper.level),
            bounded(calmer_rim - at(&means.behind_calmer_rim), 0.15),
            light(at(&means.calmer_beside) - paper.level),
            seen * bounded(at(&means.calmer_beside) - calmer_rim, 0.2),
        ]
    }

    /// The mean level of a wall that may be too narrow for one of its middle.
    fn narrow_wall(&self, edge: usize, foot: usize) -> f32 {
        let (start, end) = (edge + 1, foot.max(edge + 2));
        self.calm.mean(
            start.min(self.count.saturating_sub(1)),
            end.clamp(1, self.count),
        )
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
