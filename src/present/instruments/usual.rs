use crate::marking::InstrumentFact;
use crate::quantity::Dimension;

/// Short name, name, what it measures, half-width, repeatability, shared part.
type Usual = (
    &'static str,
    &'static str,
    Dimension,
    &'static str,
    &'static str,
    Option<&'static str>,
);

/// What most forges have; the rubrics that ship give the same figures. Common practice, no
/// source.
const USUAL: [Usual; 8] = [
    (
        "steel-rule",
        "Steel rule",
        Dimension::Length,
        "0.5 mm",
        "0.3 mm",
        None,
    ),
    (
        "caliper",
        "Caliper",
        Dimension::Length,
        "0.05 mm",
        "0.1 mm",
        Some("0.02 mm"),
    ),
    (
        "dividers",
        "Dividers against a steel rule",
        Dimension::Length,
        "0.5 mm",
        "0.4 mm",
        None,
    ),
    (
        "depth-gauge",
        "Depth gauge",
        Dimension::Length,
        "0.1 mm",
        "0.15 mm",
        None,
    ),
    (
        "feeler-gauge",
        "Feeler gauge",
        Dimension::Length,
        "0.03 mm",
        "0.05 mm",
        None,
    ),
    (
        "protractor",
        "Protractor",
        Dimension::Angle,
        "0.5 deg",
        "0.3 deg",
        None,
    ),
    (
        "template",
        "Template laid on the shoe",
        Dimension::Length,
        "0.5 mm",
        "0.4 mm",
        None,
    ),
    (
        "by-eye",
        "By eye",
        Dimension::Length,
        "1 mm",
        "0.7 mm",
        None,
    ),
];

/// The usual instruments by short name, to begin a list with.
pub fn usual_instruments() -> Vec<(String, InstrumentFact)> {
    let facts = USUAL.map(|(id, name, measures, half_width, repeatability, shared)| {
        let fact = InstrumentFact {
            name: name.to_owned(),
            measures,
            half_width: Some(half_width.to_owned()),
            shape: None,
            level_share: None,
            standard_uncertainty: None,
            repeatability: Some(repeatability.to_owned()),
            shared: shared.map(str::to_owned),
            source: "common practice, no source".to_owned(),
        };
        (id.to_owned(), fact)
    });
    facts.to_vec()
}
