use std::sync::Arc;

use leptos::prelude::*;
use web_sys::File;

use super::{Run, Stage};
use crate::page::slices::{Slice, breathe};
use crate::page::{crypto, open_file};
use crate::present::too_large;
use crate::present::verify::{LedgerCheck, Opened, Step, open_file as open};

/// Reads a file and checks it.
pub(super) async fn look(file: File, stage: RwSignal<Stage>, run: Run) {
    let read = match too_large(open_file::size_of(&file)) {
        Some(text) => Err(text),
        None => open_file::bytes_of(&file).await,
    };
    // What is said of the reading is drawn first.
    breathe().await;
    if !run.is_current() {
        return;
    }
    let found = match read.and_then(|bytes| open(&bytes)) {
        Err(text) => Stage::Refused(text),
        Ok(Opened::Marking(found)) => {
            let signature = match &found.signed {
                Ok(signed) => crypto::check(signed).await,
                Err(known) => known.clone(),
            };
            Stage::Marking(Arc::from(found), signature)
        }
        Ok(Opened::Ledger(mut check)) => {
            let tell = |text: String| drop(stage.try_set(Stage::Working(text)));
            let goes_on = || run.is_current() && !run.is_stopped();
            check_all(&mut check, goes_on, tell).await;
            Stage::Ledger(Arc::new(check.found()))
        }
    };
    if run.is_current() {
        stage.set(found);
    }
}

/// Checks marking after marking while it `goes_on`, and tells how far it is.
pub(crate) async fn check_all(
    check: &mut LedgerCheck,
    goes_on: impl Fn() -> bool,
    tell: impl Fn(String),
) {
    let mut slice = Slice::begin();
    while goes_on() {
        match check.step() {
            Step::Done => return,
            Step::Checked(None) => {}
            Step::Checked(Some((marking, signed))) => {
                let found = crypto::check(&signed).await;
                check.signature(marking, &found);
            }
        }
        if slice.is_over() {
            tell(check.progress());
            breathe().await;
            slice = Slice::begin();
        }
    }
}
