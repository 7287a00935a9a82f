use crate::present::start::sentence;
use crate::records::{PublicKey, Signature, in_groups};

/// A signature that is to be checked by whoever has the means.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Signed {
    /// The key that it says it is made with.
    pub key: PublicKey,
    /// Its two numbers of 32 bytes each.
    pub value: Vec<u8>,
    /// What it is to be a signature of.
    pub message: Vec<u8>,
}

/// What became of a signature.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SignatureFound {
    /// There is none.
    Unsigned,
    /// It is no signature that can be checked.
    Unreadable,
    /// The key of this fingerprint signed this digest.
    Fits(String),
    /// It is of something else, or by another key.
    DoesNotFit,
    /// This browser checks no signatures.
    Unchecked,
}

impl Signed {
    /// The signature to be checked, over a document of this `digest`.
    ///
    /// *Errors:* what is known without checking.
    pub fn of(signature: Option<&Signature>, digest: &str) -> Result<Self, SignatureFound> {
        let signature = signature.ok_or(SignatureFound::Unsigned)?;
        let key = signature.key().map_err(|_| SignatureFound::Unreadable)?;
        let value = signature.bytes().ok_or(SignatureFound::Unreadable)?;
        Ok(Self {
            key,
            value,
            message: Signature::signed_bytes(digest).to_vec(),
        })
    }

    /// What checking it found; `None` where nothing could check it.
    pub fn found(&self, fits: Option<bool>) -> SignatureFound {
        match fits {
            Some(true) => SignatureFound::Fits(self.key.fingerprint()),
            Some(false) => SignatureFound::DoesNotFit,
            None => SignatureFound::Unchecked,
        }
    }
}

impl SignatureFound {
    /// What it comes to, sentence by sentence.
    pub fn words(&self) -> Vec<String> {
        let said: &[&str] = match self {
            Self::Unsigned => &[
                "Unsigned. Whoever changes a file can compute a new digest for it, so compare the \
                 digest with the printed sheet.",
            ],
            Self::Unreadable => &[
                "The signature in it is none that can be read: it was damaged or altered. Take \
                 the marking as unsigned.",
            ],
            Self::DoesNotFit => &[
                "The signature does not fit: the marking, the digest or the signature was changed \
                 since it was made.",
            ],
            Self::Unchecked => &[
                "It is signed, and this browser does not check signatures here. Open the page over \
                 https, or in another browser.",
            ],
            Self::Fits(fingerprint) => {
                return vec![
                    format!("Signed by the key {}.", in_groups(fingerprint).join(" ")),
                    "Compare the key with the one that the examiner saved: only that tells whose \
                     it is."
                        .to_owned(),
                ];
            }
        };
        said.iter().map(|text| (*text).to_owned()).collect()
    }
}

/// Whether the saved key in `text` is the one of this fingerprint, in words.
///
/// *Errors:* in words, for people.
pub fn key_compared(text: &str, fingerprint: &str) -> Result<(bool, &'static str), String> {
    let key = PublicKey::read(text).map_err(|error| sentence(&error.to_string()))?;
    Ok(if key.fingerprint() == fingerprint {
        (true, "The marking is signed by this key.")
    } else {
        (false, "The marking is signed by another key than this one.")
    })
}
