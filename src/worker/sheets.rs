//! Scored sheets as a PDF, or each as one in a ZIP.

use std::collections::{BTreeMap, BTreeSet};
use std::io::{Cursor, Write as _};

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

use super::scored::{ReadRubrics, ledger_of, steps};
use crate::conformity::weigh;
use crate::job::{Binding, Made, PaperSize, Sheets};
use crate::output::pdf::{Paper, Pdf, Pictures, Setting, pdf, pdf_of_many};
use crate::output::sheet_base;
use crate::records::{Ledger, MarkingId};
use crate::sheet::{Document, scored_sheet};

/// Of the time that a sheet takes, so much goes into saying what is on it.
const SAYING: f64 = 0.5;

/// Makes the file; `tell` hears how much is done, from 0 to 1.
///
/// *Errors:* in words, for people.
pub(super) fn sheets(wanted: &Sheets, tell: &mut dyn FnMut(f64)) -> Result<Made, String> {
    let ledger = ledger_of(&wanted.records)?;
    let rubrics = ReadRubrics::of(&ledger, &wanted.markings)?;
    let mut said = Vec::new();
    let steps = steps(wanted.markings.len());
    for (done, id) in (1u32..).zip(&wanted.markings) {
        said.push(sheet(&ledger, &rubrics, *id)?);
        tell(SAYING * f64::from(done) / steps);
    }
    // One whose bytes do not come through is a frame on its sheet.
    let pictures = wanted.pictures.iter().filter_map(|(digest, data)| {
        let bytes = STANDARD.decode(data).ok()?;
        Some((digest.clone(), bytes.into()))
    });
    let pictures: Pictures = pictures.collect();
    let on = Setting {
        paper: paper(wanted.paper),
        pictures: &pictures,
    };
    match wanted.binding {
        Binding::OnePdf => one_pdf(&wanted.title, &said, on),
        Binding::Zip => zipped(&said, on, tell),
    }
}

/// A sheet and what its file is called.
struct Said {
    base: String,
    document: Document,
}

fn sheet(ledger: &Ledger, rubrics: &ReadRubrics<'_>, id: MarkingId) -> Result<Said, String> {
    let scored = rubrics.scored(ledger, id)?;
    let marking = scored.parts.marking;
    let base = sheet_base(&scored);
    // How sure an agreed marking is lies in those that it is made from; and a sheet stands
    // without it where it cannot be worked out.
    let certainty = match marking.agreement {
        Some(_) => None,
        None => weigh(scored.rubric, &marking.facts).ok(),
    };
    let document = match &certainty {
        Some(certainty) => scored_sheet(&scored.weighed(certainty)),
        None => scored_sheet(&scored),
    };
    Ok(Said { base, document })
}

fn one_pdf(title: &str, said: &[Said], on: Setting<'_>) -> Result<Made, String> {
    let documents = said.iter().map(|one| &one.document);
    let language = said.first().map_or("en-GB", |one| one.document.language);
    let made = match said {
        [one] => pdf(&one.document, on),
        _ => pdf_of_many(documents, on, title, language),
    };
    let made = made.map_err(|fault| fault.to_string())?;
    let mut missing = BTreeMap::new();
    count_missing(&made, &mut missing);
    Ok(Made {
        data: STANDARD.encode(&made.bytes),
        sheets: said.len(),
        pages: made.pages,
        missing,
    })
}

fn zipped(said: &[Said], on: Setting<'_>, tell: &mut dyn FnMut(f64)) -> Result<Made, String> {
    let refused = |fault: &dyn std::fmt::Display| {
        format!("the ZIP cannot be written ({fault}); choose one file instead")
    };
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    // What is in a PDF is packed already. Without a clock every file has the day on which
    // the format's own count begins.
    let stored = SimpleFileOptions::default().compression_method(CompressionMethod::Stored);
    let (mut pages, mut missing, mut names) = (0, BTreeMap::new(), BTreeSet::new());
    let steps = steps(said.len());
    for (done, one) in (1u32..).zip(said) {
        let made = pdf(&one.document, on).map_err(|fault| fault.to_string())?;
        pages += made.pages;
        count_missing(&made, &mut missing);
        let name = free_name(&one.base, &mut names);
        zip.start_file(name, stored)
            .map_err(|fault| refused(&fault))?;
        zip.write_all(&made.bytes)
            .map_err(|fault| refused(&fault))?;
        tell(SAYING + (1.0 - SAYING) * f64::from(done) / steps);
    }
    let bytes = zip.finish().map_err(|fault| refused(&fault))?.into_inner();
    Ok(Made {
        data: STANDARD.encode(bytes),
        sheets: said.len(),
        pages,
        missing,
    })
}

/// A name with its ending that no other file has: two pieces may be called alike.
fn free_name(base: &str, taken: &mut BTreeSet<String>) -> String {
    let mut name = format!("{base}.pdf");
    let mut again = 2;
    while !taken.insert(name.clone()) {
        name = format!("{base}_{again}.pdf");
        again += 1;
    }
    name
}

fn count_missing(made: &Pdf, missing: &mut BTreeMap<char, usize>) {
    for one in &made.missing {
        *missing.entry(one.character).or_default() += one.count;
    }
}

fn paper(size: PaperSize) -> Paper {
    match size {
        PaperSize::A4 => Paper::A4,
        PaperSize::Letter => Paper::Letter,
    }
}
