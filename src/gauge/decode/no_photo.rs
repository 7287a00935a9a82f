use thiserror::Error;

use super::{LEAST_SIDE, MOST_PIXELS};

/// Why a file gives no photo to measure, and how to mend it.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum NoPhoto {
    /// No byte is there.
    #[error(
        "the file is empty; if the photo is kept elsewhere, fetch it to this device first, then \
         choose it again"
    )]
    Empty,
    /// Of another kind, told by its first bytes.
    #[error("by its first bytes the file is {kind}, whatever its name ends in; {mend}")]
    OtherKind {
        /// What it is, with its article.
        kind: &'static str,
        /// What to do.
        mend: &'static str,
    },
    /// Of no kind that is known.
    #[error(
        "the file begins as no JPEG, PNG or WebP picture does, whatever its name ends in; choose \
         a photo, or save it as JPEG first"
    )]
    Unknown,
    /// The file ends too early.
    #[error(
        "the file ends before its picture does, after {size} bytes; copy or send it again, whole"
    )]
    Cut {
        /// Bytes that are there.
        size: usize,
    },
    /// Too many pixels.
    #[error(
        "the picture has {width} × {height} pixels, and at most {} million can be measured; set \
         the camera to fewer, or save the photo smaller",
        MOST_PIXELS / 1_000_000
    )]
    TooLarge {
        /// Columns as they are stored.
        width: usize,
        /// Rows as they are stored.
        height: usize,
    },
    /// Too few pixels.
    #[error(
        "the picture has {width} × {height} pixels, and one with fewer than {LEAST_SIDE} on a \
         side is too small to measure; choose the photo as the camera took it, no preview of it"
    )]
    TooSmall {
        /// Columns as they are stored.
        width: usize,
        /// Rows as they are stored.
        height: usize,
    },
    /// Several pictures, one after the other.
    #[error("the picture moves, and it is not told which moment to measure; choose a still photo")]
    Moving,
    /// Four printing inks.
    #[error(
        "the JPEG has colours for printing (CMYK), which no camera writes; save it as JPEG in \
         RGB first"
    )]
    PrintingInks,
    /// A JPEG laid over itself more often than any encoder does.
    #[error(
        "the JPEG is laid down in more than {most} passes, which no camera writes; open it and \
         save it as JPEG anew"
    )]
    TooManyPasses {
        /// Passes that are read.
        most: usize,
    },
    /// A large JPEG in passes, which must be held whole beside its picture.
    #[error(
        "the JPEG of {width} × {height} pixels is laid down in passes (progressive), which takes \
         more room than a device may have; open it and save it as JPEG without passes, or smaller"
    )]
    PassesTooLarge {
        /// Columns as they are stored.
        width: usize,
        /// Rows as they are stored.
        height: usize,
    },
    /// What is written does not hold together.
    #[error(
        "the {kind} cannot be read to its end ({why}); copy or send it again, or open it and save \
         it as JPEG anew"
    )]
    Broken {
        /// JPEG, PNG or WebP.
        kind: &'static str,
        /// What its reader says.
        why: String,
    },
}
