//! Every colour pair of the page against WCAG 2.2, in light, dark and high contrast.
//!
//! Source: WCAG 2.2, success criteria 1.4.3 (text, 4.5) and 1.4.11 (parts of controls and drawings, 3);
//! definitions of "relative luminance" and "contrast ratio".

use std::collections::{BTreeMap, BTreeSet};

const TOKENS: &str = include_str!("../../../style/tokens.css");

const TEXT: f64 = 4.5;
const SHAPE: f64 = 3.0;

/// Foreground, background, least ratio, where it is used.
#[rustfmt::skip]
const PAIRS: &[(&str, &str, f64, &str)] = &[
    ("ink", "paper", TEXT, "text of a page; a reading in its field"),
    ("ink", "sheet", TEXT, "text of rows, tiles, tables; plumb and whisker"),
    ("ink", "wash", TEXT, "section rows of tables; pad; a button under the pointer"),
    ("quiet", "paper", TEXT, "hints; a placeholder in a reading"),
    ("quiet", "sheet", TEXT, "units, descriptors, labels of drawings"),
    ("sheet", "ink", TEXT, "a chosen tile; a pressed button; the stop line"),
    ("sheet", "iron", TEXT, "sign of a notice; the next key; a nail hole in the fuller"),
    ("accent", "paper", TEXT, "error under a field; pass mark; focus ring"),
    ("accent", "sheet", TEXT, "error in a row; pass mark in the summary"),
    ("accent", "wash", SHAPE, "focus ring on the pad"),
    ("accent", "steel", SHAPE, "the picked part on the drawn shoe"),
    ("on-accent", "accent", TEXT, "primary button"),
    ("edge", "paper", SHAPE, "edge of a field or tile"),
    ("edge", "sheet", SHAPE, "edge of a tile in a row"),
    ("edge", "wash", SHAPE, "edge of a key on the pad"),
    ("iron", "paper", SHAPE, "edge of a plain button; outline of the shoe"),
    ("iron", "sheet", SHAPE, "frame and ticks of a scale; series of a chart"),
    ("iron", "steel", SHAPE, "outline, fuller and centre line on the drawn shoe"),
    ("notch", "straw", SHAPE, "four notches"),
    ("notch", "dark-straw", SHAPE, "three notches"),
    ("notch", "bronze", SHAPE, "two notches"),
    ("notch-lit", "purple", SHAPE, "one notch"),
    ("straw", "blue", SHAPE, "all marks and none told apart without hue"),
];

/// Name to colour in light and in dark.
type Palette = BTreeMap<String, [[u8; 3]; 2]>;

/// `#rrggbb` or `#rgb`.
fn colour(hex: &str) -> Option<[u8; 3]> {
    let digits = hex.trim().strip_prefix('#')?;
    let wide: String = match digits.len() {
        3 => digits.chars().flat_map(|digit| [digit, digit]).collect(),
        6 => digits.to_owned(),
        _ => return None,
    };
    let [_, red, green, blue] = u32::from_str_radix(&wide, 16).ok()?.to_be_bytes();
    Some([red, green, blue])
}

/// The colours a piece of tokens.css declares; a line with a colour in another form is an error.
fn palette(css: &str) -> Result<Palette, String> {
    let mut found = Palette::new();
    for line in css.lines().map(str::trim) {
        let Some((name, value)) = line
            .strip_prefix("--")
            .and_then(|rest| rest.split_once(':'))
        else {
            continue;
        };
        if ![
            "#",
            "rgb",
            "hsl",
            "oklch",
            "oklab",
            "color-mix",
            "light-dark",
        ]
        .iter()
        .any(|form| value.contains(form))
        {
            continue;
        }
        let pair = value
            .trim()
            .strip_prefix("light-dark(")
            .and_then(|rest| rest.strip_suffix(");"))
            .and_then(|rest| rest.split_once(','))
            .and_then(|(light, dark)| Some([colour(light)?, colour(dark)?]))
            .ok_or_else(|| format!("not `light-dark(#rrggbb, #rrggbb);`: {line}"))?;
        if found.insert(name.to_owned(), pair).is_some() {
            return Err(format!("--{name} is declared twice"));
        }
    }
    Ok(found)
}

/// The palette as it stands, and as it stands for people who ask for more contrast.
fn palettes() -> Result<[(&'static str, Palette); 2], String> {
    let (plain, more) = TOKENS
        .split_once("@media (prefers-contrast: more)")
        .ok_or("no block for more contrast")?;
    let plain = palette(plain)?;
    let mut strong = plain.clone();
    for (name, pair) in palette(more)? {
        if strong.insert(name.clone(), pair).is_none() {
            return Err(format!("--{name} is declared for more contrast only"));
        }
    }
    Ok([("as it stands", plain), ("more contrast", strong)])
}

/// WCAG 2.2, "relative luminance".
fn luminance(colour: [u8; 3]) -> f64 {
    let [red, green, blue] = colour.map(|part| {
        let part = f64::from(part) / 255.0;
        if part <= 0.04045 {
            part / 12.92
        } else {
            ((part + 0.055) / 1.055).powf(2.4)
        }
    });
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}

/// WCAG 2.2, "contrast ratio".
fn contrast(one: [u8; 3], other: [u8; 3]) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

/// Source: the definitions above, worked by hand; #777777 and #767676 on white are the well-known
/// grey pair on either side of 4.5.
#[test]
fn ratio_agrees_with_known_pairs() {
    for (one, other, ratio) in [
        ("#777777", "#ffffff", 4.478),
        ("#767676", "#ffffff", 4.542),
        ("#0000ff", "#ffffff", 8.592),
        ("#000000", "#ffffff", 21.0),
        ("#fff", "#ffffff", 1.0),
    ] {
        let found = contrast(colour(one).unwrap(), colour(other).unwrap());
        assert!(
            (found - ratio).abs() < 5e-4,
            "{one} on {other}: {found}, not {ratio}"
        );
        let turned = contrast(colour(other).unwrap(), colour(one).unwrap());
        assert!(
            (found - turned).abs() < 1e-12,
            "{one} and {other} differ by order"
        );
    }
}

#[test]
fn every_pair_in_use_has_contrast() {
    let mut short = Vec::new();
    for (when, palette) in palettes().unwrap() {
        for &(front, back, least, place) in PAIRS {
            let fronts = palette
                .get(front)
                .unwrap_or_else(|| panic!("no colour --{front}"));
            let backs = palette
                .get(back)
                .unwrap_or_else(|| panic!("no colour --{back}"));
            for (scheme, (one, other)) in ["light", "dark"].iter().zip(fronts.iter().zip(backs)) {
                let ratio = contrast(*one, *other);
                if ratio < least {
                    short.push(format!(
                        "{front} on {back}, {scheme}, {when}: {ratio:.2} under {least} ({place})"
                    ));
                }
            }
        }
    }
    assert!(short.is_empty(), "{}", short.join("\n"));
}

#[test]
fn every_colour_is_in_a_pair() {
    let paired: BTreeSet<&str> = PAIRS
        .iter()
        .flat_map(|&(front, back, ..)| [front, back])
        .collect();
    let [(_, plain), _] = palettes().unwrap();
    let alone: Vec<_> = plain
        .keys()
        .filter(|name| !paired.contains(name.as_str()))
        .collect();
    assert!(alone.is_empty(), "colours in no pair: {alone:?}");
}

/// A colour written outside tokens.css would escape the pairs. print.css is ink on white by itself.
#[test]
fn colours_are_written_in_tokens_only() {
    for (file, css) in [
        ("base", include_str!("../../../style/base.css")),
        ("layout", include_str!("../../../style/layout.css")),
        ("widgets", include_str!("../../../style/widgets.css")),
        ("pages", include_str!("../../../style/pages.css")),
    ] {
        let literal = css.lines().find(|line| {
            line.split('#').skip(1).any(|after| {
                after
                    .chars()
                    .take(3)
                    .filter(char::is_ascii_hexdigit)
                    .count()
                    == 3
            })
        });
        assert_eq!(literal, None, "{file}.css");
    }
}
