/// A rubric that comes with the program, as its text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Shipped {
    /// Name of its file in `rubrics/`.
    pub file: &'static str,
    /// The whole file.
    pub text: &'static str,
}

impl Shipped {
    /// The rubric's own id: its file is called by it.
    pub fn id(&self) -> &'static str {
        self.file.trim_end_matches(".toml")
    }
}

const SHIPPED: &[Shipped] = &[
    Shipped {
        file: "straight-bar-shoe.toml",
        text: include_str!("../../rubrics/straight-bar-shoe.toml"),
    },
    Shipped {
        file: "concave-front-shoe.toml",
        text: include_str!("../../rubrics/concave-front-shoe.toml"),
    },
    Shipped {
        file: "hind-shoe.toml",
        text: include_str!("../../rubrics/hind-shoe.toml"),
    },
    Shipped {
        file: "egg-bar-shoe.toml",
        text: include_str!("../../rubrics/egg-bar-shoe.toml"),
    },
];

/// The rubrics that ship.
pub fn shipped() -> &'static [Shipped] {
    SHIPPED
}
