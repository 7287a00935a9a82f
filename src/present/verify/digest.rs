/// Letters of a SHA-256 digest in hex.
const LETTERS: usize = 64;
/// What a scanned code has before the digest.
const SCANNED: &str = "evenshod:sha256:";

/// The digest in what somebody typed, pasted or scanned: in groups or not, in capitals or
/// not, with what a scanned code has before it. *Comes out* as 64 lower-case hex letters.
///
/// *Errors:* in words, for people.
pub fn read_digest(text: &str) -> Result<String, String> {
    let letters: String = text.split_whitespace().collect();
    let letters = letters.to_lowercase();
    let letters = letters.strip_prefix(SCANNED).unwrap_or(&letters);
    let is_hex = |letter: char| letter.is_ascii_digit() || ('a'..='f').contains(&letter);
    if let Some(odd) = letters.chars().find(|letter| !is_hex(*letter)) {
        return Err(format!(
            "A digest has only digits and the letters a to f; `{odd}` is none of them. Copy it \
             as the sheet prints it."
        ));
    }
    match letters.len() {
        LETTERS => Ok(letters.to_owned()),
        count => Err(format!(
            "A digest has {LETTERS} letters and digits, and these are {count}. Copy all eight \
             groups of the sheet."
        )),
    }
}

/// Whether the digest in `typed` is the one that was `found` in a file, in words.
///
/// *Errors:* as [`read_digest`].
pub fn compared_with(typed: &str, found: &str) -> Result<(bool, &'static str), String> {
    Ok(if read_digest(typed)? == found {
        (true, "The sheet’s digest is that of this file.")
    } else {
        (
            false,
            "The sheet’s digest is not that of this file: one of the two was changed, or they \
             are of two markings.",
        )
    })
}
