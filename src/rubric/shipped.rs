/// A rubric that comes with the program, as its text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Shipped {
    /// The rubric's own id.
    pub id: &'static str,
    /// Name of its file in `rubrics/`.
    pub file: &'static str,
    /// The whole file.
    pub text: &'static str,
}

/// The rubrics of these ids, each in the file of that name.
macro_rules! shipped {
    ($($id:literal)*) => {
        const SHIPPED: &[Shipped] = &[$(Shipped {
            id: $id,
            file: concat!($id, ".toml"),
            text: include_str!(concat!("../../rubrics/", $id, ".toml")),
        }),*];
        const IDS: &[&str] = &[$($id),*];
    };
}

shipped! {
    "straight-bar-shoe"
    "concave-front-shoe"
    "open-heeled-front-shoe"
    "hind-shoe"
    "pair-of-fronts"
    "egg-bar-shoe"
    "apprentice-self-check"
}

/// Whether a rubric of this id comes with the program. Unlike [`shipped`] it does not bring
/// the texts along.
pub fn is_shipped(id: &str) -> bool {
    IDS.contains(&id)
}

/// The rubrics that ship.
pub fn shipped() -> &'static [Shipped] {
    SHIPPED
}
