//! Integration over what the entries of one cluster share.

use super::cluster::Cluster;
use super::entry::MeasuredEntry;
use super::node::Node;
use super::normal::{REACH, below, density};
use super::value::Value;
use super::variable::Variables;

/// Step of the trapezoidal rule for what is as wide as a standard normal density: its error
/// is about `exp(-2 (pi / step)^2)`, here 1e-11 (L. N. Trefethen and J. A. C. Weideman, The
/// Exponentially Convergent Trapezoidal Rule, SIAM Review 56, 2014, from memory; the tests
/// compare with narrow products).
const STEP: f64 = 0.89;
/// Longest panel of the Gauss-Legendre rule for the same, to 1e-11.
const PANEL: f64 = 2.0;
/// Nodes that weigh less are left out.
const LEAST_WEIGHT: f64 = 1e-14;
/// More nodes than this take longer than draws.
const MOST_NODES: f64 = 60_000.0;

/// Gauss-Legendre abscissae and weights of order 8 on -1 to 1 (M. Abramowitz and
/// I. A. Stegun, Handbook of Mathematical Functions, 1964, table 25.4; the tests integrate
/// polynomials with them). Each stands for both signs.
const LEGENDRE: [(f64, f64); 4] = [
    (0.183_434_642_495_649_8, 0.362_683_783_378_362),
    (0.525_532_409_916_329, 0.313_706_645_877_887_3),
    (0.796_666_477_413_626_7, 0.222_381_034_453_374_48),
    (0.960_289_856_497_536_3, 0.101_228_536_290_376_26),
];

/// How one cluster is integrated.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Plan {
    /// Step of the trapezoidal rule for each shared part, in standard uncertainties.
    steps: Vec<f64>,
    /// Held readings, by their place in the cluster, in the order in which they are
    /// integrated, each with the greatest length of a panel in its own uncertainties.
    order: Vec<(usize, f64)>,
    /// About so many nodes.
    pub nodes: f64,
}

impl Plan {
    /// How to integrate `cluster`, whose entries are `entries`; `None` where that takes
    /// draws: over more than two dimensions, or a step that lies across them.
    pub fn of(
        cluster: &Cluster,
        entries: &[&MeasuredEntry],
        variables: &Variables,
    ) -> Option<Self> {
        if cluster.is_wide || cluster.parts.len() + cluster.held.len() > 2 {
            return None;
        }
        let planner = Planner {
            cluster,
            entries,
            variables,
            middle: Node::middle(cluster, variables),
        };
        let order = planner.order()?;
        let steps: Vec<f64> = cluster
            .parts
            .iter()
            .map(|part| planner.step(*part))
            .collect();
        let order: Vec<(usize, f64)> = order
            .into_iter()
            .map(|at| (at, planner.panel(at)))
            .collect();
        let nodes_of_parts = steps.iter().map(|step| 2.0 * REACH / step);
        let nodes_of_held = order
            .iter()
            .map(|(_, panel)| 2.0 * REACH / panel * 8.0 + 64.0);
        let nodes: f64 = nodes_of_parts.chain(nodes_of_held).product();
        let plan = Self {
            steps,
            order,
            nodes,
        };
        (nodes <= MOST_NODES).then_some(plan)
    }

    /// Whether there is nothing to integrate over.
    pub fn is_single(&self) -> bool {
        self.steps.is_empty() && self.order.is_empty()
    }

    /// Visits every node with its weight. The weights come to one as nearly as the rules
    /// are exact.
    pub fn visit(
        &self,
        cluster: &Cluster,
        entries: &[&MeasuredEntry],
        variables: &Variables,
        visit: &mut dyn FnMut(f64, &Node<'_>),
    ) {
        let mut node = Node::middle(cluster, variables);
        self.over_parts(0, 1.0, &mut node, &mut |weight, node| {
            self.over_held(0, weight, node, entries, visit);
        });
    }

    fn over_parts<'n>(
        &self,
        level: usize,
        weight: f64,
        node: &mut Node<'n>,
        visit: &mut dyn FnMut(f64, &mut Node<'n>),
    ) {
        let Some(step) = self.steps.get(level) else {
            if weight > LEAST_WEIGHT {
                visit(weight, node);
            }
            return;
        };
        let mut z = -REACH;
        while z <= REACH {
            if let Some(place) = node.parts.get_mut(level) {
                *place = z;
            }
            self.over_parts(level + 1, weight * density(z) * step, node, visit);
            z += step;
        }
    }

    fn over_held(
        &self,
        level: usize,
        weight: f64,
        node: &mut Node<'_>,
        entries: &[&MeasuredEntry],
        visit: &mut dyn FnMut(f64, &Node<'_>),
    ) {
        let Some((at, panel)) = self.order.get(level) else {
            visit(weight, node);
            return;
        };
        let Some(axis) = Axis::of(node, *at) else {
            return;
        };
        let mut breaks = axis.breaks();
        for entry in entries {
            if matches!(entry.value, Value::Single(index) if index == axis.index) {
                breaks.extend(node.limits(entry).cuts);
            }
        }
        breaks.sort_by(f64::total_cmp);
        breaks.dedup();
        let (low, high) = axis.ends();
        breaks.retain(|place| *place >= low && *place <= high);
        for (from, to) in breaks.iter().zip(breaks.iter().skip(1)) {
            axis.panels(*from, *to, *panel, &mut |x, part| {
                if let Some(place) = node.held.get_mut(*at) {
                    *place = x;
                }
                let weight = weight * part * axis.density(x);
                self.over_held(level + 1, weight, node, entries, visit);
            });
        }
    }
}

/// One held reading as it is integrated over, in base units.
struct Axis {
    index: usize,
    mean: f64,
    own: f64,
    half: f64,
}

impl Axis {
    fn of(node: &Node<'_>, at: usize) -> Option<Self> {
        let (index, own, half) = node.held_spread(at)?;
        Some(Self {
            index,
            mean: node.shifted(index),
            own,
            half,
        })
    }

    fn ends(&self) -> (f64, f64) {
        let reach = self.half + REACH * self.own;
        (self.mean - reach, self.mean + reach)
    }

    /// Where its density bends.
    fn breaks(&self) -> Vec<f64> {
        let (low, high) = self.ends();
        let mut breaks = vec![low, high];
        if self.half > 0.0 {
            for edge in [self.mean - self.half, self.mean + self.half] {
                breaks.extend([edge - REACH * self.own, edge, edge + REACH * self.own]);
            }
        }
        breaks
    }

    fn density(&self, x: f64) -> f64 {
        let off = x - self.mean;
        if self.half <= 0.0 {
            return density(off / self.own) / self.own;
        }
        if self.own <= 0.0 {
            return 0.5 / self.half;
        }
        let up_to = |edge: f64| below((off + edge) / self.own);
        (up_to(self.half) - up_to(-self.half)) / (2.0 * self.half)
    }

    /// Visits the nodes of panels between two places, each with its weight.
    fn panels(&self, from: f64, to: f64, panel: f64, visit: &mut dyn FnMut(f64, f64)) {
        let length = if self.own > 0.0 {
            self.own * panel
        } else {
            self.half * 0.25
        };
        let longest = length.max((to - from) / 256.0);
        let mut start = from;
        while start < to {
            // The last two panels share what is left, so that none is tiny.
            let left = to - start;
            let end = if left <= 1.5 * longest {
                to
            } else {
                start + longest
            };
            let (middle, half) = (0.5 * (start + end), 0.5 * (end - start));
            for (place, weight) in LEGENDRE {
                visit(middle - half * place, half * weight);
                visit(middle + half * place, half * weight);
            }
            start = end;
        }
    }
}

/// The width of what is integrated along something that is spread like a normal value of
/// width 1, times the distributions of entries that change by so many of their own widths
/// each: that of the product of all these normal densities, which is the narrowest that it
/// can show.
fn narrowed(changes: impl Iterator<Item = f64>) -> f64 {
    let sharper: f64 = changes.map(|change| change * change).sum();
    (1.0 + sharper).sqrt().recip().max(1e-6)
}

struct Planner<'a> {
    cluster: &'a Cluster,
    entries: &'a [&'a MeasuredEntry],
    variables: &'a Variables,
    middle: Node<'a>,
}

impl Planner<'_> {
    /// An order of the held readings in which each step is met with its limits known.
    fn order(&self) -> Option<Vec<usize>> {
        let places: Vec<usize> = (0..self.cluster.held.len()).collect();
        let reversed: Vec<usize> = places.iter().rev().copied().collect();
        [places, reversed]
            .into_iter()
            .find(|order| self.entries.iter().all(|entry| self.is_met(entry, order)))
    }

    fn is_met(&self, entry: &MeasuredEntry, order: &[usize]) -> bool {
        let held = |index: &usize| self.cluster.held.iter().position(|known| known == index);
        let rank = |index: &usize| {
            let at = held(index)?;
            order.iter().position(|known| *known == at)
        };
        let own = entry.value.variables();
        let all_held = own.iter().all(|index| held(index).is_some());
        match &entry.value {
            Value::Farthest(_) => false,
            Value::Single(index) if all_held => {
                let before = |other: &usize| rank(other) < rank(index);
                entry
                    .basis()
                    .iter()
                    .filter(|other| held(other).is_some())
                    .all(before)
            }
            _ => !all_held,
        }
    }

    /// The step along a shared part that is fine enough.
    fn step(&self, part: usize) -> f64 {
        let part_of = |index: usize| {
            let variable = self.variables.all.get(index);
            variable.map_or(0.0, |variable| variable.part(part))
        };
        let by_entry = self.entries.iter().enumerate().map(|(at, entry)| {
            // Readings that it moves opposite ways part by the sum of both.
            let own = entry.value.variables().into_iter().map(part_of);
            let (least, most) = own.fold((0.0_f64, 0.0_f64), |(least, most), moves| {
                (least.min(moves), most.max(moves))
            });
            (most - least) / self.smooth(at, entry)
        });
        let by_held = (0..self.cluster.held.len()).filter_map(|at| {
            let (index, own, half) = self.middle.held_spread(at)?;
            Some(part_of(index) / own.max(half * 0.25))
        });
        STEP * narrowed(by_entry.chain(by_held))
    }

    /// The longest panel of a held reading, in its own uncertainties.
    fn panel(&self, at: usize) -> f64 {
        let Some((index, own, half)) = self.middle.held_spread(at) else {
            return 1.0;
        };
        let width = own.max(half * 0.25);
        let entries = self.entries.iter().enumerate();
        let by_entry = entries.map(|(place, entry)| {
            let moves = self.slope(entry, at, width);
            let own_value = entry.value.variables();
            let moves = if own_value.contains(&index) && own_value.len() > 1 {
                moves.max(1.0)
            } else {
                moves
            };
            moves * width / self.smooth(place, entry)
        });
        PANEL * narrowed(by_entry)
    }

    fn smooth(&self, at: usize, entry: &MeasuredEntry) -> f64 {
        let (own, half) = self.middle.spread_of(at, &entry.value);
        let width = own.max(half * 0.25);
        // A step is met by a break, and smooth past the held reading that it is of.
        if width > 0.0 { width } else { f64::INFINITY }
    }

    /// How much the limits of an entry move with a held reading.
    fn slope(&self, entry: &MeasuredEntry, at: usize, width: f64) -> f64 {
        if width <= 0.0 {
            return 0.0;
        }
        let moved = |off: f64| {
            let mut node = self.middle.clone();
            if let Some(place) = node.held.get_mut(at) {
                *place += off;
            }
            node.limits(entry).cuts
        };
        let (low, high) = (moved(-width), moved(width));
        let off = low.iter().zip(&high).map(|(low, high)| (high - low).abs());
        off.fold(0.0, f64::max) / (2.0 * width)
    }
}
