use crate::quantity::{Angle, Length};

macro_rules! named {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $word:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum $name { $($(#[$vdoc])* $variant),+ }

        impl $name {
            /// Every value with the word that files and pages use.
            pub const WORDS: &'static [(&'static str, Self)] = &[$(($word, Self::$variant)),+];

            /// The word for this value.
            pub fn word(self) -> &'static str {
                match self { $(Self::$variant => $word),+ }
            }
        }
    };
}

named! {
    /// What kind of shoe is asked for.
    ShoeKind {
        /// Two free heels.
        OpenHeeled = "open-heeled",
        /// Heels joined straight across.
        StraightBar = "straight bar",
        /// Bar rounded so that the outline is an oval.
        EggBar = "egg bar",
        /// Bar with a plate forward over the frog.
        HeartBar = "heart bar",
    }
}

named! {
    /// The foot that a shoe is made for.
    Foot {
        /// Left front.
        NearFore = "near fore",
        /// Right front.
        OffFore = "off fore",
        /// Left hind.
        NearHind = "near hind",
        /// Right hind.
        OffHind = "off hind",
    }
}

impl Foot {
    /// Whether the outer branch of its shoe lies on the right, ground face seen and toe up.
    pub fn outer_is_right(self) -> bool {
        matches!(self, Self::NearFore | Self::NearHind)
    }
}

named! {
    /// Profile of the bar that the shoe is made of.
    Section {
        /// Rectangular.
        Flat = "flat",
        /// Ground face slopes in towards the inner edge.
        Concave = "concave",
    }
}

named! {
    /// Form of the toe.
    ToeShape {
        /// Plain.
        Round = "round",
        /// Ground edge tapered from the front to the inside of the web.
        Rolled = "rolled",
        /// Squared and set back under the wall.
        Set = "set",
    }
}

named! {
    /// How far the fuller runs.
    FullerExtent {
        /// In the nail zone of each branch, toe left solid.
        ThreeQuarter = "three-quarter",
        /// From heel to heel.
        Full = "full",
    }
}

named! {
    /// End of a free heel.
    HeelShape {
        /// Cut square.
        Square = "square",
        /// Rounded off.
        Rounded = "rounded",
        /// Tapered and bevelled with the slope of the horn.
        Pencilled = "pencilled",
    }
}

named! {
    /// Form of the bar.
    BarShape {
        /// Straight across.
        Straight = "straight",
        /// Rounded to an oval.
        Egg = "egg",
        /// With a frog plate.
        Heart = "heart",
    }
}

named! {
    /// Where a clip stands.
    ClipPlace {
        /// Middle of the toe.
        Toe = "toe",
        /// Outer quarter.
        OuterQuarter = "outer quarter",
        /// Inner quarter.
        InnerQuarter = "inner quarter",
    }
}

/// Everything that a drawing of the shoe needs. Lengths in mm.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PieceSpecification {
    /// Kind of shoe.
    pub kind: ShoeKind,
    /// The bar it is made of.
    pub stock: Stock,
    /// Its finished size.
    pub finished: Finished,
    /// Form of the toe.
    pub toe: Toe,
    /// Width of the web along the branch.
    pub web: Web,
    /// How much fuller the outer branch is than the inner one.
    pub outer_fuller_by: Length,
    /// Free heels, of an open-heeled shoe.
    pub heels: Option<Heels>,
    /// The bar, of a bar shoe.
    pub bar: Option<Bar>,
    /// The fuller; `None` for a plain shoe.
    pub fuller: Option<Fuller>,
    /// Nail holes; `None` where none are asked for.
    pub nails: Option<NailHoles>,
    /// Clips.
    pub clips: Vec<Clip>,
}

/// The bar before it is worked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stock {
    /// Profile.
    pub section: Section,
    /// Width of the bar.
    pub width: Length,
    /// Thickness of the bar.
    pub thickness: Length,
    /// Cut length, where it is given.
    pub length: Option<Length>,
    /// What it is made of, in words.
    pub material: String,
}

/// Size of the made shoe.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finished {
    /// Greatest width.
    pub width: Length,
    /// Toe to heels or to the back of the bar.
    pub length: Length,
    /// Thickness at the branches.
    pub thickness: Length,
}

/// The toe.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Toe {
    /// Form.
    pub shape: ToeShape,
    /// Radius of the outer toe arc, where it is given.
    pub radius: Option<Length>,
    /// How far back a roll or set runs from the front edge.
    pub depth: Option<Length>,
    /// Thickness left at the front edge of a roll.
    pub edge: Option<Length>,
    /// Width of the straight part of a set toe.
    pub set_width: Option<Length>,
}

/// Width of the web.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Web {
    /// At the toe.
    pub toe: Length,
    /// At the quarters.
    pub quarter: Length,
    /// At the heels.
    pub heel: Length,
}

/// Free heels.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Heels {
    /// Distance between the inner edges at the ends.
    pub gap: Length,
    /// Form of the ends.
    pub shape: HeelShape,
}

/// A bar.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bar {
    /// Form.
    pub shape: BarShape,
    /// Width, front to back.
    pub width: Length,
    /// Thickness.
    pub thickness: Length,
    /// Distance between the inner edges of the heels.
    pub gap: Length,
    /// How far an egg bar reaches behind the heels.
    pub behind: Option<Length>,
    /// Length of the frog plate of a heart bar, from the bar's front edge.
    pub plate_length: Option<Length>,
    /// Greatest width of the frog plate.
    pub plate_width: Option<Length>,
}

/// The fuller, alike on both branches.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fuller {
    /// How far it runs.
    pub extent: FullerExtent,
    /// From the middle of the toe along the outer edge to where it starts.
    pub start: Length,
    /// From the middle of the toe along the outer edge to where it ends.
    pub end: Length,
    /// Outer edge of the shoe to the middle of the groove.
    pub inset: Length,
    /// Width of the groove.
    pub width: Length,
    /// Depth of the groove.
    pub depth: Length,
}

/// Nail holes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NailHoles {
    /// Number in the outer branch.
    pub outer: u32,
    /// Number in the inner branch.
    pub inner: u32,
    /// From the middle of the toe along the outer edge to the first hole.
    pub first: Length,
    /// From one hole to the next along the branch.
    pub spacing: Length,
    /// Outer edge of the shoe to the middle of a hole.
    pub inset: Length,
    /// Inclination of the toe holes, inwards positive.
    pub pitch_toe: Option<Angle>,
    /// Inclination of the heel holes, inwards positive.
    pub pitch_heel: Option<Angle>,
    /// The nail to be tried, in words.
    pub nail: String,
}

/// A clip.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Clip {
    /// Where it stands.
    pub place: ClipPlace,
    /// Width at the base.
    pub width: Length,
    /// Height over the foot side.
    pub height: Length,
    /// Thickness at the base.
    pub thickness: Length,
}
