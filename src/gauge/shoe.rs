use kurbo::Point;
use serde::{Deserialize, Serialize};

use super::doubt::{Doubt, is_plain_beside, places_under};
use super::drawn;
use super::feature::rests_on_inner;
use super::features::{Both, Frame, Measures, frame, measure, measure_near};
use super::groove::{Fuller, Grooves, grooves};
use super::ground::Ground;
use super::hidden::{Hidden, ends_seen};
use super::holes::holes;
use super::lie::to_toe;
use super::nail_hole::{NailHole, nail_holes};
use super::picture::Picture;
use super::refused::Refused;
use super::scale::{Scale, see};
use super::sheet::Seen;
use super::spread::{ALL_OFF, Basis, Estimates, estimates};
use super::steel::{Followed, edges};
use super::view::View;

/// Which face of the shoe lies up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Face {
    /// The one that meets the ground.
    #[default]
    Ground,
    /// The one that meets the foot: no fuller is seen, and of nail holes only where they come out,
    /// so neither is looked for.
    Foot,
}

/// What is known of a photograph before it is looked at.
#[derive(Debug, Clone, PartialEq)]
pub struct Ask {
    /// What in it has a known size.
    pub scale: Scale,
    /// Which face of the shoe lies up.
    pub face: Face,
    /// Whether it shows a drawn outline, no shoe; a scan always does.
    pub is_drawn: bool,
    /// The shoe's thickness and its standard uncertainty, in mm: so high above the ground that
    /// face lies.
    pub thickness: (f64, f64),
    /// The focal length in pixels and the uncertainty of its logarithm, if the file tells.
    pub focal: Option<(f64, f64)>,
    /// Dots per inch of a scan, if the file tells.
    pub density: Option<f64>,
    /// Corners of the sheet in pixels, in order round it, where a person marked them.
    pub corners: Option<[Point; 4]>,
    /// Whether the section is concave, so that the inner edge lies lower than the outer one.
    pub is_concave: bool,
    /// Where something hides the edge of the face that lies up; what rests on it there is left
    /// blank.
    pub hidden: Vec<Hidden>,
    /// Places of the edge of the face that lies up, in pixels, that a person put right; of no
    /// account for a drawn outline.
    pub edge_points: Vec<Point>,
}

impl Ask {
    /// A shoe that lies ground side up, its thickness with its standard uncertainty in mm, of
    /// which nothing else is known.
    pub fn of(scale: Scale, thickness: (f64, f64)) -> Self {
        Self {
            scale,
            face: Face::Ground,
            is_drawn: false,
            thickness,
            focal: None,
            density: None,
            corners: None,
            is_concave: false,
            hidden: Vec::new(),
            edge_points: Vec::new(),
        }
    }

    /// Whether a drawn outline is looked for.
    pub fn is_drawn(&self) -> bool {
        self.is_drawn || matches!(self.scale, Scale::Scan(_))
    }

    /// Whether the shoe may hang over the edge of its sheet: with its ground side up and clips.
    fn may_overhang(&self) -> bool {
        let has_clip = self.hidden.iter().any(|hidden| hidden.is_clip());
        self.face == Face::Ground && has_clip && !self.is_drawn()
    }

    /// How high what is measured lies above what has a known size, in mm, with its standard
    /// uncertainty.
    pub fn height(&self) -> (f64, f64) {
        let (lift, lift_unsure) = self.scale.lift();
        let (thick, unsure) = if self.is_drawn() {
            (0.0, 0.0)
        } else {
            self.thickness
        };
        (thick - lift, unsure.hypot(lift_unsure))
    }
}

/// A shoe as it was measured.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// The camera, by the sheet.
    pub seen: Seen,
    /// Outlines of the ground face in mm on its plane, the outer one first.
    pub outlines: Vec<Followed>,
    /// What was measured of them.
    pub measures: Measures,
    /// The values of the whole shoe with their uncertainty.
    pub estimates: Estimates,
    /// The fuller of each branch, where it is plain.
    pub fuller: Both<Option<Fuller>>,
    /// The nail holes that are plainly seen.
    pub holes: Vec<NailHole>,
    /// Places of the outlines that cannot be relied on.
    pub unclear: Vec<Point>,
    /// What whoever relies on it should know.
    pub warnings: Vec<Warning>,
}

impl Found {
    /// Places of the edges that cannot be relied on, in the shoe's own frame.
    pub(super) fn unclear_in_shoe(&self) -> Vec<Point> {
        let frame = self.measures.frame;
        self.unclear.iter().map(|at| frame.into_shoe(*at)).collect()
    }

    /// Whether the outer edge is plain where it lies nearest to a place in the shoe's own frame,
    /// so far off in mm.
    pub fn has_plain_edge(&self, place: Point, way: f64) -> bool {
        is_plain_beside(&self.unclear_in_shoe(), place, way)
    }
}

/// What makes a measure less sure than it may look.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Warning {
    /// How high the camera was is known to this share only, as where the file tells no focal
    /// length.
    NoFocal(f64),
    /// The edge is doubtful over this share of the outline; what rests on it is left blank.
    Doubtful(f64),
    /// Something hides the edge there, as was said before; what rests on it is left blank.
    Hidden(Hidden),
    /// So many places of the edge were put right by hand.
    EdgeByHand(usize),
    /// An end of the fuller, or all of it on one branch at least, is not plain and left blank.
    Fuller,
    /// How far the camera leaned cannot be told.
    Level,
    /// A traced line stands off what it goes round.
    Traced,
}

/// The stages of the work, in order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// What has a known size, and the camera.
    Sheet,
    /// The steel and its edges, or the drawn lines.
    Steel,
    /// The measures.
    Measures,
    /// The fuller.
    Fuller,
    /// The nail holes in it.
    Holes,
    /// How sure they are.
    Uncertainty,
}

impl Stage {
    /// All of them, in order.
    pub const ALL: [Self; 6] = [
        Self::Sheet,
        Self::Steel,
        Self::Measures,
        Self::Fuller,
        Self::Holes,
        Self::Uncertainty,
    ];
}

/// More of the outline than this share may not be doubtful.
const MOST_DOUBTFUL: f64 = 0.3;
/// Of places that cannot be relied on one in so many tells where they are: 2 mm apart.
const EACH: usize = 4;
/// A focal length that is known worse than this is told of.
const VAGUE: f64 = 0.015;
/// The ground face ends in a toe within this angle, and from the second on no more, in degrees,
/// seen from half its width behind it. A toe may be bevelled there.
const TOE: (f64, f64) = (55.0, 70.0);

/// Measures the shoe in a picture.
///
/// # Errors
///
/// Why it cannot be measured, and what to do; never a number that is not stood by.
pub fn look(picture: &Picture, ask: &Ask, mut begins: impl FnMut(Stage)) -> Result<Found, Refused> {
    begins(Stage::Sheet);
    let seen = see(picture, ask).map_err(|why| match why {
        Refused::Side(spot) if ask.may_overhang() => Refused::Hung(spot),
        other => other,
    })?;
    begins(Stage::Steel);
    let view = View {
        picture,
        camera: &seen.camera,
        height: ask.height().0,
    };
    let ground = Ground::of(&view, ask.scale, ask.may_overhang());
    if ask.is_drawn() {
        return drawn::look(&view, &ground, ask, seen.clone(), begins);
    }
    let outlines = edges(&view, &ground, &ask.edge_points, |outer, has_bar| {
        toe(frame(outer, to_toe(outer, has_bar)).ok(), outer)
    })?;
    let outlines = outlines.into_iter();
    let outlines: Vec<Followed> = outlines
        .map(|edge| ask.scale.less_sure(edge, &seen, view.height))
        .collect();
    let lines: Vec<Vec<Point>> = outlines.iter().map(|edge| edge.line.clone()).collect();
    let (outer, inner) = lines.split_first().ok_or(Refused::NoShoe)?;
    let hanging = ground.hanging(outer, inner)?;
    begins(Stage::Measures);
    let measures = measure(outer, inner, to_toe(outer, !inner.is_empty()));
    // A photo is refused for the doubt that it shows elsewhere than where the edge is hidden.
    let hidden = measures
        .as_ref()
        .map(|measures| places_under(&ask.hidden, measures));
    let hidden = [hidden.unwrap_or_default(), hanging].concat();
    let doubt = Doubt::of(&outlines, hidden);
    if doubt.share > MOST_DOUBTFUL {
        return Err(Refused::Edge(doubt.share));
    }
    let unclear: Vec<Point> = doubt.places().step_by(EACH).collect();
    let measures = measure_near(outer, inner, &measures?.frame, &unclear)?;
    begins(Stage::Fuller);
    let grooves = match ask.face {
        Face::Ground => grooves(&view, outer, &measures),
        Face::Foot => Grooves::none(),
    };
    begins(Stage::Holes);
    let spotted = holes(&view, &grooves);
    let places: Vec<Point> = spotted.iter().map(|hole| hole.centre).collect();
    begins(Stage::Uncertainty);
    let estimates = estimates(&Basis {
        seen: &seen,
        outlines: &outlines,
        measures: &measures,
        places: &places,
        unclear: &unclear,
        blank: &|feature| {
            doubt.is_under(&measures, feature) || ask.is_concave && rests_on_inner(feature)
        },
        thickness: ask.height(),
        all_off: ALL_OFF,
    })
    .ok_or(Refused::Unsure)?;
    ask.scale.check(&estimates)?;
    let mut warnings = ask.scale.warnings();
    let focal = seen.focal_unsure();
    if focal > VAGUE {
        warnings.push(Warning::NoFocal(focal));
    }
    if doubt.share > 0.0 {
        warnings.push(Warning::Doubtful(doubt.share));
    }
    warnings.extend(ask.hidden.iter().copied().map(Warning::Hidden));
    if !ask.edge_points.is_empty() {
        warnings.push(Warning::EdgeByHand(ask.edge_points.len()));
    }
    if ask.face == Face::Ground && !grooves.are_plain() {
        warnings.push(Warning::Fuller);
    }
    Ok(Found {
        holes: nail_holes(
            &measures,
            &spotted,
            &grooves.middles,
            &estimates,
            doubt.off_at(measures.frame.toe),
        ),
        fuller: ends_seen(&ask.hidden, grooves.fuller),
        seen,
        outlines,
        measures,
        estimates,
        unclear: doubt.places().collect(),
        warnings,
    })
}

/// How far a place is a toe, from nothing to 1.
fn toe(frame: Option<Frame>, outer: &[Point]) -> impl Fn(Point) -> f64 + use<> {
    let behind = frame.map(|frame| {
        let across = outer.iter().map(|at| frame.into_shoe(*at).x);
        let (least, most) = across.fold((0.0_f64, 0.0_f64), |(least, most), x| {
            (least.min(x), most.max(x))
        });
        (frame, (most - least) / 2.0)
    });
    move |at| {
        behind.map_or(0.0, |(frame, half)| {
            let at = frame.into_shoe(at);
            let angle = at.x.atan2(half - at.y).abs().to_degrees();
            ((TOE.1 - angle) / (TOE.1 - TOE.0)).clamp(0.0, 1.0)
        })
    }
}
