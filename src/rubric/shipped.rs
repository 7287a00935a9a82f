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

/// The shipped rubric of this name.
macro_rules! shipped {
    ($($name:literal)*) => {
        &[$(Shipped {
            file: concat!($name, ".toml"),
            text: include_str!(concat!("../../rubrics/", $name, ".toml")),
        }),*]
    };
}

const SHIPPED: &[Shipped] = shipped! {
    "straight-bar-shoe"
    "concave-front-shoe"
    "open-heeled-front-shoe"
    "hind-shoe"
    "egg-bar-shoe"
    "apprentice-self-check"
};

/// The rubrics that ship.
pub fn shipped() -> &'static [Shipped] {
    SHIPPED
}
