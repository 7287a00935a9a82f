//! Documents as files: PDF or plain text, several as one file or each as one in a ZIP.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::io::{Cursor, Write as _};

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

use super::scored::share;
use super::sheets::sheets;
use crate::job::{Binding, Content, Form, Made, PaperKind, PaperSize, Papers, Titled};
use crate::output::pdf::{Paper, Pictures, Setting, pdf, pdf_of_many};
use crate::output::text;

/// Of the time that a sheet takes, so much goes into saying what is on it.
const SAYING: f64 = 0.5;
/// Between documents that are one file of plain text.
const NEXT: &str = "\n\n\n";

/// Makes the file; `tell` hears how much is done, from 0 to 1.
///
/// *Errors:* in words, for people.
pub(super) fn papers(wanted: &Papers, tell: &mut dyn FnMut(f64)) -> Result<Made, String> {
    let said = match &wanted.content {
        Content::Documents(documents) => Cow::Borrowed(documents.as_slice()),
        Content::Sheets { records, markings } => {
            let all = markings.len();
            let mut tell = |done| tell(SAYING * share(done, all));
            Cow::Owned(sheets(records, markings, &mut tell)?)
        }
    };
    // One whose bytes do not come through is a frame in its document.
    let pictures = wanted.pictures.iter().filter_map(|(digest, data)| {
        let bytes = STANDARD.decode(data).ok()?;
        Some((digest.clone(), bytes.into()))
    });
    let press = Press {
        form: wanted.form,
        pictures: pictures.collect(),
    };
    match wanted.form.binding {
        Binding::One => press.one(&wanted.title, &said),
        Binding::Zip => press.zipped(&said, tell),
    }
}

/// What sets documents.
struct Press {
    form: Form,
    pictures: Pictures,
}

/// A file with its bytes still as they are.
struct Set {
    bytes: Vec<u8>,
    pages: usize,
    missing: BTreeMap<char, usize>,
}

impl Press {
    fn one(&self, title: &str, said: &[Titled]) -> Result<Made, String> {
        let set = self.set(title, said)?;
        Ok(Made {
            data: STANDARD.encode(&set.bytes),
            documents: said.len(),
            pages: set.pages,
            missing: set.missing,
        })
    }

    /// Several in one file of this title; one has its own.
    fn set(&self, title: &str, said: &[Titled]) -> Result<Set, String> {
        match self.form.kind {
            PaperKind::Text => Ok(plain(said)),
            PaperKind::Pdf => self.pdf(title, said),
        }
    }

    fn pdf(&self, title: &str, said: &[Titled]) -> Result<Set, String> {
        let on = Setting {
            paper: paper(self.form.size),
            pictures: &self.pictures,
        };
        let documents = said.iter().map(|one| &one.document);
        let language = said.first().map_or("en-GB", |one| &*one.document.language);
        let made = match said {
            [one] => pdf(&one.document, on),
            _ => pdf_of_many(documents, on, title, language),
        };
        let made = made.map_err(|fault| fault.to_string())?;
        let missing = made.missing.iter().map(|one| (one.character, one.count));
        Ok(Set {
            missing: missing.collect(),
            bytes: made.bytes,
            pages: made.pages,
        })
    }

    fn zipped(&self, said: &[Titled], tell: &mut dyn FnMut(f64)) -> Result<Made, String> {
        let refused = |fault: &dyn std::fmt::Display| {
            format!("the ZIP cannot be written ({fault}); choose one file instead")
        };
        let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
        // What is in a PDF is packed already. Without a clock every file has the day on
        // which the format's own count begins.
        let stored = SimpleFileOptions::default().compression_method(CompressionMethod::Stored);
        let (mut pages, mut missing, mut names) = (0, BTreeMap::new(), BTreeSet::new());
        for (done, one) in (1..).zip(said) {
            let set = self.set(&one.document.title, std::slice::from_ref(one))?;
            pages += set.pages;
            for (character, count) in set.missing {
                *missing.entry(character).or_default() += count;
            }
            let name = free_name(&one.base, ending(self.form.kind), &mut names);
            zip.start_file(name, stored)
                .map_err(|fault| refused(&fault))?;
            zip.write_all(&set.bytes).map_err(|fault| refused(&fault))?;
            tell(SAYING + (1.0 - SAYING) * share(done, said.len()));
        }
        let bytes = zip.finish().map_err(|fault| refused(&fault))?.into_inner();
        Ok(Made {
            data: STANDARD.encode(bytes),
            documents: said.len(),
            pages,
            missing,
        })
    }
}

fn plain(said: &[Titled]) -> Set {
    let texts: Vec<String> = said.iter().map(|one| text(&one.document)).collect();
    Set {
        bytes: texts.join(NEXT).into_bytes(),
        pages: 0,
        missing: BTreeMap::new(),
    }
}

fn ending(kind: PaperKind) -> &'static str {
    match kind {
        PaperKind::Pdf => "pdf",
        PaperKind::Text => "txt",
    }
}

/// A name with its ending that no other file has: two pieces may be called alike.
fn free_name(base: &str, ending: &str, taken: &mut BTreeSet<String>) -> String {
    let mut name = format!("{base}.{ending}");
    let mut again = 2;
    while !taken.insert(name.clone()) {
        name = format!("{base}_{again}.{ending}");
        again += 1;
    }
    name
}

fn paper(size: PaperSize) -> Paper {
    match size {
        PaperSize::A4 => Paper::A4,
        PaperSize::Letter => Paper::Letter,
        PaperSize::A5 => Paper::A5,
        PaperSize::HalfLetter => Paper::HalfLetter,
        PaperSize::A6 => Paper::A6,
    }
}
