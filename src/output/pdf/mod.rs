//! Documents as a finished PDF: paged, tagged, with its faces inside, text to select and
//! search.
//!
//! The way there: `blocks` takes a document apart into strips as wide as the text (`line`
//! breaks lines, `face` knows how wide glyphs are), `pages` puts the strips on pages,
//! `press` draws the pages and ties what is drawn to the tree of `tags`. All but `press`
//! and `tags` know nothing of PDF.
//!
//! *What is guaranteed.* The same documents give the same bytes: no clock, no chance.
//! Every text of a document is in the file, in its order; only control characters, which
//! nothing prints, are left out. A character that the faces lack is drawn as a box, copies
//! as itself and is counted in [`Pdf::missing`]. Writing from right to left is not turned
//! around: where the faces lack it, as they do Arabic and Hebrew, its boxes stand in the
//! order in which it was typed.
//!
//! *What is read.* Headings, paragraphs, lists, tables with names of rows and columns,
//! drawings with their words. The foot of a page, rules, and a table's head where it is set
//! again are no part of it.

mod blocks;
mod brush;
mod drawing;
mod error;
mod face;
mod foot;
mod line;
mod pages;
mod paper;
mod press;
mod rows;
mod strip;
mod tags;
mod together;
mod words;

use super::{ink, look};
use std::collections::BTreeMap;

use krilla::configure::Validator;

pub use error::PdfError;
pub use paper::Paper;
pub use strip::Kind;

use crate::records::PictureBytes;
use crate::sheet::Document;
use face::Faces;
use foot::Foot;
use pages::{Placed, pages};
use paper::Format;
use press::Press;
use tags::{NodeId, Role, Tree};

/// A finished file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pdf {
    /// Its bytes.
    pub bytes: Vec<u8>,
    /// How many pages it has.
    pub pages: usize,
    /// Characters that the faces lack, drawn as boxes, by code point.
    pub missing: Vec<Missing>,
}

/// A character that the faces lack.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Missing {
    /// The character.
    pub character: char,
    /// How often it is in the file.
    pub count: usize,
}

/// The bytes of pictures by their digests: JPEG, PNG or WebP.
pub type Pictures = BTreeMap<String, PictureBytes>;

/// What documents are set on, and with which pictures.
#[derive(Debug, Clone, Copy)]
pub struct Setting<'a> {
    /// The paper.
    pub paper: Paper,
    /// The pictures that are at hand; a frame stands for any other.
    pub pictures: &'a Pictures,
}

static NO_PICTURES: Pictures = BTreeMap::new();

impl From<Paper> for Setting<'_> {
    /// Without pictures.
    fn from(paper: Paper) -> Self {
        Self {
            paper,
            pictures: &NO_PICTURES,
        }
    }
}

/// One document as a PDF.
///
/// *Errors:* [`PdfError`], each a fault of the program.
pub fn pdf<'s>(document: &Document, on: impl Into<Setting<'s>>) -> Result<Pdf, PdfError> {
    pdf_of_many([document], on, &document.title, &document.language)
}

/// Several documents in one file of this title and language (as BCP 47 has it), each with
/// a bookmark and page numbers of its own.
///
/// *Errors:* [`PdfError::Nothing`] without a document; else a fault of the program.
pub fn pdf_of_many<'a, 's>(
    documents: impl IntoIterator<Item = &'a Document>,
    on: impl Into<Setting<'s>>,
    title: &str,
    language: &str,
) -> Result<Pdf, PdfError> {
    written(documents, on.into(), (title, language), Validator::None)
}

/// As [`pdf_of_many`], and refused where it breaks what a program can check of PDF/UA-1
/// (ISO 14289-1); the file then says that it follows it. For tests: what only people can
/// judge, such as whether words describe a drawing well, is not checked.
///
/// *Errors:* those of [`pdf_of_many`], and [`PdfError::Writer`] with every rule broken.
pub fn checked_pdf_of_many<'a, 's>(
    documents: impl IntoIterator<Item = &'a Document>,
    on: impl Into<Setting<'s>>,
    title: &str,
    language: &str,
) -> Result<Pdf, PdfError> {
    written(documents, on.into(), (title, language), Validator::UA1)
}

/// What stands on each page of a document, from top to bottom, by kind; a kind for each
/// strip, of which a paragraph or row has one for each of its lines.
///
/// *Errors:* [`PdfError::Face`].
pub fn plan<'s>(
    document: &Document,
    on: impl Into<Setting<'s>>,
) -> Result<Vec<Vec<Kind>>, PdfError> {
    let mut faces = Faces::new()?;
    let on = on.into();
    let on = (format(document, on, &mut faces), on.pictures);
    let pages = laid(document, on, &mut faces, &mut Tree::default(), None);
    let kinds = |page: Vec<Placed>| page.into_iter().map(|placed| placed.strip.kind).collect();
    Ok(pages.into_iter().map(kinds).collect())
}

fn written<'a>(
    documents: impl IntoIterator<Item = &'a Document>,
    on: Setting<'_>,
    (title, language): (&str, &str),
    validator: Validator,
) -> Result<Pdf, PdfError> {
    let documents: Vec<&Document> = documents.into_iter().collect();
    if documents.is_empty() {
        return Err(PdfError::Nothing);
    }
    let mut faces = Faces::new()?;
    let mut tree = Tree::default();
    let mut press = Press::new(on.paper, validator)?;
    for document in &documents {
        let root = (documents.len() > 1).then(|| {
            let language = document.language.to_string();
            tree.add(None, Role::Part { language })
        });
        let format = format(document, on, &mut faces);
        let pages = laid(document, (format, on.pictures), &mut faces, &mut tree, root);
        let title = named(&document.title);
        press.begin(title, format);
        for (number, page) in (1..).zip(&pages) {
            let foot = Foot {
                title,
                number,
                of: pages.len(),
            };
            press.page(&mut faces, &tree, page, &foot);
        }
    }
    press.finish(tree, named(title), language)
}

/// Type is set so much smaller, one after the other, where that keeps a document to the
/// pages that it should have at most: from 8.25 points in a table to 7.5.
const STEPS: [f32; 4] = [1.0, 0.97, 0.94, 0.91];

/// How large a document is set: as is usual, unless type a little smaller keeps it to its
/// pages, or at least to fewer.
fn format(document: &Document, on: Setting<'_>, faces: &mut Faces) -> Format {
    let mut best = (usize::MAX, Format::new(on.paper, 1.0));
    let Some(most) = document.most_pages else {
        return best.1;
    };
    for step in STEPS {
        let format = Format::new(on.paper, step);
        let tree = &mut Tree::default();
        let pages = laid(document, (format, on.pictures), faces, tree, None).len();
        if pages < best.0 {
            best = (pages, format);
        }
        if pages <= most {
            break;
        }
    }
    best.1
}

fn laid(
    document: &Document,
    (on, pictures): (Format, &Pictures),
    faces: &mut Faces,
    tree: &mut Tree,
    root: Option<NodeId>,
) -> Vec<Vec<Placed>> {
    let laid = blocks::lay(document, pictures, faces, (tree, root), on);
    pages(laid.strips, &laid.heads, on.text_height())
}

/// A title that is something to read: a file without one is hard to tell from others.
fn named(title: &str) -> &str {
    if title.trim().is_empty() {
        "Without a title"
    } else {
        title
    }
}
