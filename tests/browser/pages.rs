//! Every page in every state that a person can see, one after the other.

use crate::agreement::shown;
use crate::board::{issue, open_board};
use crate::browser::Page;
use crate::documents::ask;
use crate::impression::{begin as begin_asking, keep_and_begin};
use crate::keyboard::mark_whole_shoe;
use crate::learner::{invented_learner, unfold_numbers};
use crate::ledger::forget_all;
use crate::over::{lay_over, move_width};
use crate::own::{digest, seal_unseen, start_both};
use crate::photo::{add_edge_point, measure_bar_shoe, refuse_covered_corner};
use crate::pictures::{add_photo, at_levels, give_and_take_off, give_example};
use crate::release::{exam_marked_by_both, open_learner, release, start_exam};
use crate::rubrics::open_part;
use crate::steps::start_bar_shoe_of;
use crate::steps::{enter, seal, start_piece, start_piece_of};
use crate::studies::{begin as begin_study, type_readings};
use crate::sure::{deaf_worker, no_worker, right_worker};
use crate::tables::{ask_table, unfold_columns};
use crate::two::{ask_two, mark_by_both, start_two};
use crate::verify::{altered, save_json, verify};

/// A page in a state.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Sight {
    EmptyBench,
    StartForm,
    StartFormWithErrors,
    FreshMarkSheet,
    MarkSheetWithPadAndPanel,
    MarkSheetWithTrouble,
    FullMarkSheet,
    SealDialog,
    ScoredSheet,
    HowSure,
    HowSureBusy,
    HowSureUnknown,
    SealedMarkSheet,
    Bench,
    NoLearners,
    Learners,
    Learner,
    LearnerNumbers,
    LearnerTalk,
    LearnerCard,
    LearnerPortfolio,
    LearnerPrint,
    LearnerDetails,
    LearnerFacts,
    LearnersOver,
    LearnersClass,
    Rubrics,
    Rubric,
    RubricBlank,
    Plan,
    BenchCard,
    LayOn,
    RubricForms,
    RubricText,
    RubricSheet,
    RubricsInWork,
    Ledger,
    LedgerSaved,
    LedgerRefused,
    LedgerWouldChange,
    LedgerTaken,
    LedgerEmpty,
    Instruments,
    InstrumentForm,
    InstrumentShape,
    Study,
    StartFormOfBoth,
    StartFormAlone,
    WhoMarks,
    Unseen,
    ThrowAway,
    SecondSeal,
    OwnSheet,
    SideBySide,
    MarkAgain,
    EraseDialog,
    CorrectForm,
    CorrectedSheet,
    Verify,
    VerifyIntact,
    VerifyAltered,
    VerifyRefused,
    VerifyLedger,
    LedgerKey,
    VerifySigned,
    SavePaper,
    SavedPaper,
    SaveTable,
    TableColumns,
    SheetHeld,
    LearnerHeld,
    LearnerHeldShown,
    SideHeld,
    Sittings,
    ReleaseWithoutName,
    SittingHeld,
    SittingReleased,
    SheetReleased,
    StartFormOfTwo,
    AwaitsExaminers,
    Examiners,
    AgreeBegin,
    AgreeOpen,
    AgreedSheet,
    ImpressionAsked,
    ImpressionGiven,
    ImpressionLocked,
    ImpressionSheet,
    ImpressionTyped,
    ImpressionCounts,
    ImpressionCounted,
    ImpressionForms,
    ExampleForms,
    ExampleTiles,
    PhotoRefused,
    PhotoSheet,
    EraseLearner,
    ErasedLearner,
    OnPaper,
    HeatLog,
    HeatLogEnded,
    PhotoGauge,
    PhotoGaugeRefused,
    PhotoMoved,
    PhotoEdge,
    LaidOver,
    UnusedPictures,
    Help,
    UnknownAddress,
    InventedLearner,
    InventedAgreement,
    IssueTickets,
    Tickets,
    Board,
    BoardFaults,
}

impl Sight {
    /// In an order in which each makes what later ones need.
    pub(crate) const ALL: [Self; 115] = [
        Self::EmptyBench,
        Self::NoLearners,
        Self::StartForm,
        Self::StartFormWithErrors,
        Self::FreshMarkSheet,
        Self::MarkSheetWithPadAndPanel,
        Self::MarkSheetWithTrouble,
        Self::FullMarkSheet,
        Self::SealDialog,
        Self::ScoredSheet,
        Self::HowSureUnknown,
        Self::HowSureBusy,
        Self::HowSure,
        Self::SealedMarkSheet,
        Self::Bench,
        Self::Learners,
        Self::Learner,
        Self::LearnerNumbers,
        Self::LearnerTalk,
        Self::LearnerCard,
        Self::LearnerPortfolio,
        Self::LearnerPrint,
        Self::LearnerDetails,
        Self::LearnerFacts,
        Self::LearnersOver,
        Self::LearnersClass,
        Self::Rubrics,
        Self::Rubric,
        Self::RubricBlank,
        Self::Plan,
        Self::BenchCard,
        Self::LayOn,
        Self::RubricForms,
        Self::RubricText,
        Self::RubricSheet,
        Self::RubricsInWork,
        Self::Ledger,
        Self::LedgerSaved,
        Self::LedgerRefused,
        Self::LedgerEmpty,
        Self::LedgerWouldChange,
        Self::LedgerTaken,
        Self::Instruments,
        Self::InstrumentForm,
        Self::InstrumentShape,
        Self::Study,
        Self::StartFormOfBoth,
        Self::StartFormAlone,
        Self::WhoMarks,
        Self::Unseen,
        Self::ThrowAway,
        Self::SecondSeal,
        Self::OwnSheet,
        Self::SideBySide,
        Self::MarkAgain,
        Self::EraseDialog,
        Self::CorrectForm,
        Self::CorrectedSheet,
        Self::Verify,
        Self::VerifyIntact,
        Self::VerifyAltered,
        Self::VerifyRefused,
        Self::VerifyLedger,
        Self::LedgerKey,
        Self::VerifySigned,
        Self::SavePaper,
        Self::SavedPaper,
        Self::SaveTable,
        Self::TableColumns,
        Self::SheetHeld,
        Self::LearnerHeld,
        Self::LearnerHeldShown,
        Self::SideHeld,
        Self::Sittings,
        Self::ReleaseWithoutName,
        Self::SittingHeld,
        Self::SittingReleased,
        Self::SheetReleased,
        Self::StartFormOfTwo,
        Self::AwaitsExaminers,
        Self::Examiners,
        Self::AgreeBegin,
        Self::AgreeOpen,
        Self::AgreedSheet,
        Self::ImpressionAsked,
        Self::ImpressionGiven,
        Self::ImpressionLocked,
        Self::ImpressionSheet,
        Self::ImpressionTyped,
        Self::ImpressionCounts,
        Self::ImpressionCounted,
        Self::ImpressionForms,
        Self::ExampleForms,
        Self::ExampleTiles,
        Self::PhotoRefused,
        Self::PhotoSheet,
        Self::EraseLearner,
        Self::ErasedLearner,
        Self::OnPaper,
        Self::HeatLog,
        Self::HeatLogEnded,
        Self::PhotoGauge,
        Self::PhotoGaugeRefused,
        Self::PhotoMoved,
        Self::PhotoEdge,
        Self::LaidOver,
        Self::UnusedPictures,
        Self::Help,
        Self::UnknownAddress,
        Self::InventedLearner,
        Self::InventedAgreement,
        Self::IssueTickets,
        Self::Tickets,
        Self::Board,
        Self::BoardFaults,
    ];

    /// Its name in messages and files.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::EmptyBench => "bench-empty",
            Self::NoLearners => "learners-none",
            Self::StartForm => "start",
            Self::StartFormWithErrors => "start-errors",
            Self::FreshMarkSheet => "mark-sheet-fresh",
            Self::MarkSheetWithPadAndPanel => "mark-sheet-pad",
            Self::MarkSheetWithTrouble => "mark-sheet-trouble",
            Self::FullMarkSheet => "mark-sheet-full",
            Self::SealDialog => "seal",
            Self::ScoredSheet => "sheet",
            Self::HowSure => "how-sure",
            Self::HowSureBusy => "how-sure-busy",
            Self::HowSureUnknown => "how-sure-unknown",
            Self::SealedMarkSheet => "mark-sheet-sealed",
            Self::Bench => "bench",
            Self::Learners => "learners",
            Self::Learner => "learner",
            Self::LearnerNumbers => "learner-numbers",
            Self::LearnerTalk => "learner-talk",
            Self::LearnerCard => "learner-card",
            Self::LearnerPortfolio => "learner-portfolio",
            Self::LearnerPrint => "learner-print",
            Self::LearnerDetails => "learner-details",
            Self::LearnerFacts => "learner-facts",
            Self::LearnersOver => "learners-over",
            Self::LearnersClass => "learners-class",
            Self::Rubrics => "rubrics",
            Self::Rubric => "rubric",
            Self::RubricBlank => "rubric-blank",
            Self::Plan => "plan",
            Self::BenchCard => "bench-card",
            Self::LayOn => "lay-on-gauge",
            Self::RubricForms => "rubric-forms",
            Self::RubricText => "rubric-text",
            Self::RubricSheet => "rubric-sheet",
            Self::RubricsInWork => "rubrics-in-work",
            Self::Ledger => "ledger",
            Self::LedgerSaved => "ledger-saved",
            Self::LedgerRefused => "ledger-refused",
            Self::LedgerEmpty => "ledger-empty",
            Self::LedgerWouldChange => "ledger-would-change",
            Self::LedgerTaken => "ledger-taken",
            Self::Instruments => "instruments",
            Self::InstrumentForm => "instrument-form",
            Self::InstrumentShape => "instrument-shape",
            Self::Study => "study",
            Self::StartFormOfBoth => "start-both",
            Self::StartFormAlone => "start-alone",
            Self::WhoMarks => "who-marks",
            Self::Unseen => "sheet-unseen",
            Self::ThrowAway => "sheet-unseen-throw",
            Self::SecondSeal => "seal-second",
            Self::OwnSheet => "sheet-own",
            Self::SideBySide => "side-by-side",
            Self::MarkAgain => "mark-again",
            Self::EraseDialog => "sheet-erase",
            Self::CorrectForm => "correct-errors",
            Self::CorrectedSheet => "sheet-replaced",
            Self::Verify => "verify",
            Self::VerifyIntact => "verify-intact",
            Self::VerifyAltered => "verify-altered",
            Self::VerifyRefused => "verify-refused",
            Self::VerifyLedger => "verify-ledger",
            Self::LedgerKey => "ledger-key",
            Self::VerifySigned => "verify-signed",
            Self::StartFormOfTwo => "start-two",
            Self::AwaitsExaminers => "bench-awaits-examiners",
            Self::Examiners => "examiners",
            Self::AgreeBegin => "agree-begin",
            Self::AgreeOpen => "agree-open",
            Self::AgreedSheet => "sheet-agreed",
            Self::ImpressionAsked => "impression-asked",
            Self::ImpressionGiven => "impression-given",
            Self::ImpressionLocked => "impression-locked",
            Self::ImpressionSheet => "impression-sheet",
            Self::ImpressionTyped => "impression-typed",
            Self::ImpressionCounts => "impression-counts",
            Self::ImpressionCounted => "impression-counted",
            Self::ImpressionForms => "impression-forms",
            Self::ExampleForms => "example-forms",
            Self::ExampleTiles => "example-tiles",
            Self::PhotoRefused => "photo-refused",
            Self::PhotoSheet => "photo-sheet",
            Self::EraseLearner => "erase-learner",
            Self::ErasedLearner => "erased-learner",
            Self::OnPaper => "on-paper",
            Self::HeatLog => "heat-log",
            Self::HeatLogEnded => "heat-log-ended",
            Self::PhotoGauge => "photo-gauge",
            Self::PhotoGaugeRefused => "photo-gauge-refused",
            Self::PhotoMoved => "photo-moved",
            Self::PhotoEdge => "photo-edge",
            Self::LaidOver => "laid-over",
            Self::UnusedPictures => "unused-pictures",
            Self::SavePaper => "save-paper",
            Self::SavedPaper => "saved-paper",
            Self::SaveTable => "save-table",
            Self::TableColumns => "table-columns",
            Self::SheetHeld => "sheet-held",
            Self::LearnerHeld => "learner-held",
            Self::LearnerHeldShown => "learner-held-shown",
            Self::SideHeld => "side-by-side-held",
            Self::Sittings => "sittings",
            Self::ReleaseWithoutName => "sittings-release",
            Self::SittingHeld => "sitting-held",
            Self::SittingReleased => "sitting-released",
            Self::SheetReleased => "sheet-released",
            Self::Help => "help",
            Self::UnknownAddress => "unknown",
            Self::InventedLearner => "invented-learner",
            Self::InventedAgreement => "invented-agreement",
            Self::IssueTickets => "issue-tickets",
            Self::Tickets => "tickets",
            Self::Board => "board",
            Self::BoardFaults => "board-faults",
        }
    }

    /// Brings it about, on from the one before it.
    pub(crate) async fn show(self, page: &Page) {
        match self {
            Self::EmptyBench => page.go("/").await,
            Self::IssueTickets => {
                page.go("/sittings/issue").await;
                page.click("form .button[data-kind=primary]").await;
                page.wait_for("#tickets-error").await;
            }
            Self::Tickets => {
                issue(page, "3").await;
                page.click_words(".page-head .button", "Tickets to print")
                    .await;
                page.wait_for(".paper .code-dark").await;
            }
            Self::Board => {
                page.click_words(".actions .button", "The sitting").await;
                page.wait_text("h2", "Pieces").await;
                open_board(page).await;
            }
            Self::BoardFaults => {
                page.click("#start-all").await;
                page.wait_text(".board-tile", "at the anvil").await;
                page.click_words(".board-tile:first-child .button", "Fault")
                    .await;
                page.wait_for(".board-panel").await;
            }
            Self::NoLearners | Self::Learners => page.go("/learners").await,
            Self::StartForm => page.go("/pieces/new").await,
            Self::StartFormWithErrors => {
                page.click("form .button[data-kind=primary]").await;
                page.wait_for(".error").await;
            }
            Self::FreshMarkSheet => {
                start_piece(page).await;
            }
            Self::MarkSheetWithPadAndPanel => {
                if !page.shows(".pad").await {
                    page.click_words(".tools button", "Number pad").await;
                }
                page.focus("#r-width").await;
                page.keys("130").await;
                page.click("#width .more").await;
                page.wait_for("#c-width").await;
                page.click("#time .more").await;
                if page.shows("[data-key=fractions]").await {
                    page.click("[data-key=fractions]").await;
                }
            }
            Self::MarkSheetWithTrouble => {
                page.fill("#r-length", "thirteen").await;
                page.click_words("#safety .tile", "No eye protection").await;
                page.click("#safety .more").await;
                page.click("#bar-width .more").await;
                page.click_words("#bar-width .tile", "Can’t be measured")
                    .await;
                page.fill("#d-bar-width", "many").await;
                page.wait_for(".sum-stop").await;
                page.wait_for("#length .error").await;
                page.wait_for("#bar-width .error").await;
            }
            Self::FullMarkSheet => {
                // A fresh one, as the last stays a draft with its trouble.
                start_piece_of(page, "Bea Coe").await;
                mark_whole_shoe(page).await;
            }
            Self::SealDialog => {
                page.click_words(".dock .button", "Seal").await;
                page.wait_for("dialog[open]").await;
            }
            Self::ScoredSheet => {
                page.keys(crate::browser::key::ESCAPE).await;
                seal(page).await;
            }
            Self::HowSureUnknown => no_worker(page).await,
            Self::HowSureBusy => deaf_worker(page).await,
            Self::HowSure => {
                right_worker(page).await;
                page.reload().await;
                page.wait_for(".paper .chance").await;
            }
            Self::SealedMarkSheet => {
                let sheet = page.path().await;
                let (piece, _) = sheet.split_once("/sheet").unwrap();
                page.go(piece).await;
                page.wait_text("main", "This marking is sealed").await;
            }
            Self::Bench => {
                page.go("/").await;
                page.wait_for(".piece").await;
            }
            Self::Learner => {
                page.click_words(".pieces a", "Bea Coe").await;
                page.wait_text("h1", "Bea Coe").await;
            }
            Self::LearnerNumbers => unfold_numbers(page).await,
            Self::LearnerTalk => {
                page.click_words("main .button", "Talk it over").await;
                page.wait_for(".talk li").await;
            }
            Self::LearnerCard => {
                page.click_words("main .button", "Practice card").await;
                page.wait_for(".card-sized .paper").await;
            }
            Self::LearnerPortfolio => {
                page.click_words(".actions .button", "Bea Coe").await;
                page.click_words(".page-head .button", "Portfolio").await;
                page.wait_for(".paper .table").await;
            }
            Self::LearnerPrint => {
                page.click_words(".actions .button", "Bea Coe").await;
                page.click_words(".page-head .button", "Page to print")
                    .await;
                page.wait_for(".one-page .paper").await;
            }
            Self::LearnerDetails => {
                if !page.shows("#details-button").await {
                    page.back().await;
                    page.wait_for("#details-button").await;
                }
                page.click("#details-button").await;
                page.fill("#employer", "Oakes Forge").await;
                page.click("#outside-add").await;
                page.fill("#outside-by-0", "Wexcombe Guild").await;
                page.set_date("#started", "2026-09-01").await;
                page.set_date("#planned-end", "2026-08-31").await;
                page.click_words("#details .button", "Keep these").await;
                page.wait_for("#planned-end-error").await;
                page.wait_for("#outside-number-0-error").await;
            }
            Self::LearnerFacts => {
                page.fill("#outside-number-0", "WG 2026/0815").await;
                page.set_date("#planned-end", "2030-08-31").await;
                page.click("[name=status][value=paused]").await;
                page.click_words("#details .button", "Keep these").await;
                page.wait_text(".learner-facts", "Oakes Forge").await;
            }
            Self::LearnersOver => {
                page.click("#details-button").await;
                page.click("[name=status][value=left]").await;
                page.click_words("#details .button", "Keep these").await;
                page.wait_text(".learner-facts", "left").await;
                page.wait_saved().await;
                page.go("/learners").await;
                page.wait_text("h2", "Completed or left").await;
            }
            Self::LearnersClass => {
                page.click_words(".page-head .button", "For a class").await;
                page.wait_for("[name=handout]").await;
            }
            Self::Rubrics | Self::RubricsInWork => {
                page.go("/rubrics").await;
                page.wait_for(".piece").await;
            }
            Self::Rubric => {
                page.click_words(".piece a", "Straight bar shoe").await;
                page.wait_for(".paper").await;
            }
            Self::RubricBlank => {
                page.click_words(".actions .button", "Sheet to fill in by hand")
                    .await;
                page.wait_text(".paper", "Fields by number").await;
            }
            Self::Plan => {
                page.back().await;
                page.wait_for("#versions").await;
                page.click_words(".actions .button", "Plan the piece").await;
                page.wait_text(".paper", "Beside old rules").await;
            }
            Self::BenchCard => {
                page.click_words(".actions .button", "Bench card").await;
                page.wait_text(".paper", "Before the fire").await;
            }
            Self::LayOn => {
                page.back().await;
                page.wait_text(".paper", "Beside old rules").await;
                page.click_words(".actions .button", "Lay-on gauge").await;
                page.wait_text(".paper", "Print at 100").await;
            }
            Self::RubricForms => {
                if page.shows("#gauge-side").await {
                    page.click_words(".actions .button", "The plan").await;
                    page.wait_text(".paper", "Beside old rules").await;
                    page.click_words(".actions .button", "The rubric").await;
                    page.wait_for("#versions").await;
                }
                page.click_words(".actions button", "Make it your own")
                    .await;
                page.wait_text("#rubric-state", "Ready").await;
                for part in ["part-head", "part-sections-0", "part-sections-0-criteria-3"] {
                    open_part(page, part).await;
                }
                let width = "#f-sections-0-criteria-3-bands-0-within";
                page.fill(width, "1.5 mmm").await;
                page.wait_for(&format!("{width}-error")).await;
            }
            Self::RubricText => {
                page.click_words(".work-tools .tile", "Text").await;
                page.wait_for(".troubles li").await;
            }
            Self::RubricSheet => {
                page.click_words(".work-tools .tile", "Mark sheet").await;
                page.wait_for(".work-sheet .row").await;
            }
            Self::Ledger => page.go("/ledger").await,
            Self::LedgerSaved => {
                page.click("#save-all").await;
                page.wait_text("#saved-words", "records").await;
            }
            Self::LedgerRefused => {
                let (_, bytes) = page.download(".json").await;
                let half = &bytes[..bytes.len() / 2];
                page.choose_file("#ledger-file", "half.json", half).await;
                page.wait_text("#ledger-says", "the file is missing").await;
            }
            Self::LedgerEmpty => {
                forget_all(page).await;
                page.go("/ledger").await;
            }
            Self::LedgerWouldChange => {
                // Somebody of one name is here already.
                page.go("/learners").await;
                page.fill("#new", "Bea Coe").await;
                page.keys(crate::browser::key::ENTER).await;
                page.wait_text("main", "Bea Coe is added").await;
                page.go("/ledger").await;
                let (_, bytes) = page.download(".json").await;
                page.choose_file("#ledger-file", "whole.json", &bytes).await;
                page.wait_for("#take-over").await;
            }
            Self::LedgerTaken => {
                page.click("#take-over").await;
                page.wait_text("#ledger-says", "Taken over and stored")
                    .await;
            }
            Self::Instruments => {
                page.go("/ledger/instruments").await;
                page.click_words("main button", "Add the usual ones").await;
                page.wait_for("#instrument-caliper").await;
                page.click_words("#instrument-by-eye button", "Retire")
                    .await;
                page.wait_for("section[aria-labelledby=retired]").await;
            }
            Self::InstrumentForm => {
                page.click("#instrument-add").await;
                page.fill("#instrument-name", "Caliper no. 2").await;
                page.fill("#instrument-amount", "-1 mm").await;
                page.click_words("form .button", "Keep this instrument")
                    .await;
                page.wait_for("#instrument-amount-error").await;
            }
            Self::InstrumentShape => {
                page.fill("#instrument-amount", "1 mm").await;
                page.click("[name=instrument-shape][value=trapezoid]").await;
                page.fill("#instrument-level-share", "2").await;
                page.click_words("form .button", "Keep this instrument")
                    .await;
                page.wait_for("#instrument-level-share-error").await;
            }
            Self::Study => {
                page.go("/ledger/instruments").await;
                begin_study(page).await;
                type_readings(page).await;
                page.wait_for("section[aria-labelledby=study-taking] table")
                    .await;
            }
            Self::StartFormOfBoth => {
                page.go("/pieces/new").await;
                page.click("[name=marked-by][value=both]").await;
                let front = digest("open-heeled-front-shoe");
                page.click(&format!("[name=rubric][value='{front}']")).await;
                page.wait_for("[name=own-rubric]").await;
            }
            Self::StartFormAlone => {
                page.click("[name=sitting][value=self-check]").await;
                page.wait_text("form", "No examiner is asked for").await;
            }
            Self::WhoMarks => {
                start_both(page, "Cy Dale").await;
            }
            Self::Unseen => {
                page.click_words(".choice", "The maker").await;
                page.wait_for(".sheet .row").await;
                mark_whole_shoe(page).await;
                seal_unseen(page).await;
            }
            Self::ThrowAway => {
                page.click_words("main button", "Throw the open marking away")
                    .await;
                page.wait_for("dialog[open]").await;
            }
            Self::SecondSeal => {
                page.keys(crate::browser::key::ESCAPE).await;
                page.click_words(".choice", "Examiner").await;
                page.wait_for(".sheet .row").await;
                enter(page, "width", "140").await;
                page.click("#toe-bend .tile").await;
                page.click("#weld .tile:nth-child(2)").await;
                page.click_words(".dock .button", "Seal").await;
                page.wait_for("dialog[open]").await;
            }
            Self::OwnSheet => {
                page.keys(crate::browser::key::ESCAPE).await;
                seal(page).await;
                page.click_words("main a", "The maker’s own sheet").await;
                page.wait_text(".paper", "Own, by the maker").await;
            }
            Self::SideBySide => {
                page.click_words("main a", "Side by side").await;
                page.wait_text(".paper", "side by side").await;
            }
            Self::MarkAgain => {
                start_piece_of(page, "Dee Fox").await;
                seal(page).await;
                page.click_words("main a", "Mark it yourself").await;
                page.wait_text("h1", "Mark it again").await;
            }
            Self::StartFormOfTwo => {
                ask_two(page, "Flo Gray").await;
                page.click("form .button[data-kind=primary]").await;
                page.wait_for("#second-examiner-error").await;
            }
            Self::AwaitsExaminers => {
                start_two(page, "Flo Gray").await;
                mark_by_both(page).await;
                page.go("/").await;
                page.wait_for(".piece .next").await;
            }
            Self::Examiners => {
                page.click_words(".piece .next a", "Agree").await;
                page.click_words("main a", "Examiners side by side").await;
                page.wait_text(".paper", "side by side").await;
            }
            Self::AgreeBegin => {
                page.click_words("main a", "Agree on one marking").await;
                page.wait_for("#examiner").await;
            }
            Self::AgreeOpen => {
                page.fill("#examiner", "J. Whitlock").await;
                page.click("form .button[data-kind=primary]").await;
                page.click_words("#agree-0 .tile", "5 J. Whitlock").await;
                page.click_words("#agree-1 .tile", "Other").await;
                page.fill("#agree-1-marks", "many").await;
                page.wait_for("#agree-1-marks-error").await;
            }
            Self::AgreedSheet => {
                page.fill("#agree-0-why", "measured again").await;
                page.fill("#agree-1-marks", "2").await;
                page.fill("#agree-1-why", "held side by side").await;
                page.click_words("main button", "Seal the agreed marking")
                    .await;
                page.click("dialog[open] .button[data-kind=primary]").await;
                page.wait_text(".paper", "Agreed sheet").await;
            }
            Self::EraseDialog => {
                start_piece_of(page, "Eve Gale").await;
                enter(page, "width", "130").await;
                page.fill("#overall", "Sound work").await;
                page.wait_saved().await;
                seal(page).await;
                page.click_words("main button", "Erase comments and photos")
                    .await;
                page.wait_for("dialog[open]").await;
            }
            Self::CorrectForm => {
                page.keys(crate::browser::key::ESCAPE).await;
                page.click_words("main a", "Correct this marking").await;
                page.click("form .button[data-kind=primary]").await;
                page.wait_for("#reason-error").await;
            }
            Self::CorrectedSheet => {
                page.fill("#reason", "The width was read on another shoe")
                    .await;
                page.click("form .button[data-kind=primary]").await;
                page.wait_for(".sheet .row").await;
                enter(page, "width", "131").await;
                seal(page).await;
                page.click_words("main a", "The sheet that it corrects")
                    .await;
                page.wait_text(".paper", "no longer counts").await;
            }
            Self::Verify => page.go("/verify").await,
            Self::VerifyIntact => {
                page.back().await;
                page.wait_text(".paper", "no longer counts").await;
                let bytes = save_json(page).await;
                verify(page, &bytes).await;
                page.wait_text("#verify-verdict", "Intact").await;
                page.fill("#digest", "12").await;
                page.wait_for("#digest-error").await;
            }
            Self::VerifyAltered => {
                let (_, bytes) = page.download("eve-gale_straight-bar-shoe.json").await;
                verify(page, &altered(&bytes)).await;
                page.wait_text("#verify-verdict", "Altered").await;
                let digest = "f".repeat(64);
                page.fill("#digest", &digest).await;
                page.wait_for("#digest-says .notice").await;
            }
            Self::VerifyRefused => {
                verify(page, b"{\"a\":1}").await;
                page.wait_text("#verify-says", "This is no sealed marking")
                    .await;
            }
            Self::VerifyLedger => {
                page.go("/ledger").await;
                page.click("#save-all").await;
                page.wait_text("#saved-words", "records").await;
                // The first that was saved is as good.
                let bytes = page.download_named("evenshod-ledger").await;
                verify(page, &bytes).await;
                page.wait_text("#verify-verdict", "Intact").await;
            }
            Self::LedgerKey => {
                page.go("/ledger").await;
                page.click("#make-key").await;
                page.wait_for("#fingerprint").await;
            }
            Self::VerifySigned => {
                start_piece_of(page, "Gil Hart").await;
                enter(page, "width", "130").await;
                seal(page).await;
                page.click_words("main .button", "Save as JSON").await;
                let (_, bytes) = page.download("gil-hart_straight-bar-shoe.json").await;
                verify(page, &bytes).await;
                page.wait_for("#key-file").await;
            }
            Self::ImpressionAsked => begin_asking(page, "Asked at first", "").await,
            Self::ImpressionGiven => {
                page.click_words(".impression .tile", "7").await;
                page.wait_text("#impression-line", "7 of 10").await;
            }
            Self::ImpressionLocked => {
                enter(page, "width", "131.8").await;
                page.wait_text("#impression-line", "locked.").await;
            }
            Self::ImpressionSheet => {
                page.click_words("#outline .tile", "Nearly even").await;
                seal(page).await;
            }
            Self::ImpressionTyped => {
                begin_asking(page, "Typed at first", "most = 20").await;
                page.fill("#impression-number", "many").await;
                page.wait_for("#impression-number-error").await;
            }
            Self::ImpressionCounts => {
                begin_asking(page, "Counted at first", "counts_as = \"outline\"").await;
            }
            Self::ImpressionCounted => {
                page.click_words(".impression .tile", "Nearly even").await;
                enter(page, "width", "131.8").await;
                page.wait_for("#outline fieldset:disabled").await;
                page.click("#outline .more").await;
                page.wait_for("#outline .row-panel fieldset:disabled").await;
            }
            Self::ImpressionForms => {
                page.go("/rubrics").await;
                page.click_words(".page-head button", "Begin with a small one")
                    .await;
                for (part, words) in [
                    ("part-moderation", "Say how examiners agree"),
                    ("part-first-impression", "Ask for a first impression"),
                ] {
                    open_part(page, part).await;
                    page.click_words(&format!("#{part} button"), words).await;
                }
                page.fill("#f-first_impression-step", "3").await;
                page.wait_for("#f-first_impression-step-error").await;
            }
            Self::ExampleForms => {
                at_levels(page, "Example shoe").await;
                give_example(page).await;
            }
            Self::ExampleTiles => {
                keep_and_begin(page, "Example shoe").await;
                page.wait_for(".tile.level img.picture").await;
            }
            Self::PhotoRefused => {
                add_photo(page, "ground side").await;
                page.choose_file("#add-photo", "notes.jpg", b"no picture")
                    .await;
                page.wait_for("#add-photo-error .error").await;
            }
            Self::PhotoSheet => {
                seal(page).await;
                page.wait_for(".paper img.picture").await;
            }
            Self::EraseLearner => {
                page.click_words("main a", "Cy Example shoe").await;
                page.click("#details-button").await;
                page.click_words("#details button", "Erase this learner")
                    .await;
                page.wait_for("dialog[open]").await;
            }
            Self::ErasedLearner => {
                page.click_words("dialog[open] button", "Erase them").await;
                page.wait_text("h1", "name erased").await;
                page.wait_saved().await;
            }
            Self::OnPaper => {
                start_piece_of(page, "Pell Quarry").await;
                page.click_words(".tools .button", "On paper").await;
                page.wait_for(".from-paper").await;
                // Whatever the rubric asks for first, this is no answer.
                page.fill("#n-1", "?").await;
                page.wait_for("#n-1-error:not(:empty)").await;
            }
            Self::HeatLog => {
                // The rubric used last may have no steps.
                start_bar_shoe_of(page, "Ember Quill").await;
                page.click_words(".tools .button", "Heat log").await;
                for says in [
                    "Start",
                    "Into the fire",
                    "Out to the anvil",
                    "Into the fire",
                ] {
                    page.wait_text(".heat-next", says).await;
                    page.click(".heat-next").await;
                }
                page.click(".heat-tile").await;
                page.wait_text(".heat-last", "Step").await;
            }
            Self::HeatLogEnded => {
                page.click(".heat-next").await;
                page.click_words(".heat-tiles .button", "Finished").await;
                page.wait_text(".heat-state", "Finished").await;
                page.click(".part > details > summary").await;
            }
            Self::PhotoGauge => {
                measure_bar_shoe(page).await;
                page.click_words("[data-photo=found] .button", "Move corners")
                    .await;
                page.wait_for(".photo-corner").await;
            }
            Self::PhotoGaugeRefused => {
                refuse_covered_corner(page).await;
            }
            Self::PhotoMoved => {
                measure_bar_shoe(page).await;
                move_width(page).await;
            }
            Self::PhotoEdge => {
                measure_bar_shoe(page).await;
                add_edge_point(page).await;
            }
            Self::LaidOver => {
                lay_over(page).await;
            }
            Self::UnusedPictures => {
                at_levels(page, "Another shoe").await;
                give_and_take_off(page).await;
                page.go("/ledger").await;
                page.wait_for("#unused-pictures").await;
            }
            Self::SavePaper => {
                start_piece_of(page, "王 Gale").await;
                enter(page, "width", "130").await;
                seal(page).await;
                ask(page, "Save as a file").await;
            }
            Self::SavedPaper => {
                page.click("#make-paper").await;
                page.wait_text("#paper-says", "drawn as a box").await;
            }
            Self::SaveTable => {
                page.keys(crate::browser::key::ESCAPE).await;
                ask_table(page).await;
                page.click("#make-table").await;
                page.wait_text("#table-says", ".xlsx: 1 marking").await;
            }
            Self::TableColumns => {
                unfold_columns(page, "csv-wide").await;
                page.fill("#column-names", "learner = Candidate\nhorse = Horse")
                    .await;
                page.click("#keep-columns").await;
                page.wait_text("#column-names-error", "Line 2: `horse` is no column")
                    .await;
            }
            Self::SheetHeld => {
                start_exam(page, "Ida Jarrow").await;
                mark_whole_shoe(page).await;
                seal(page).await;
                page.wait_text(".paper", "Not released").await;
            }
            Self::LearnerHeld => {
                open_learner(page, "Ida Jarrow").await;
                page.wait_for("#held").await;
            }
            Self::LearnerHeldShown => {
                page.click_words("#held button", "Show held marks").await;
                page.wait_for("#over-time").await;
            }
            Self::SideHeld => {
                let piece = exam_marked_by_both(page, "Jem Kirkby").await;
                page.go(&format!("{piece}/side")).await;
                page.wait_for("#held").await;
            }
            Self::Sittings => {
                page.go("/sittings").await;
                page.wait_for(".piece .next").await;
            }
            Self::ReleaseWithoutName => {
                page.click_words("main button", "Release marks").await;
                page.choose("#handing-who", "").await;
                page.click("dialog[open] .button[data-kind=primary]").await;
                page.wait_for("#handing-who-error").await;
            }
            Self::SittingHeld => {
                page.keys(crate::browser::key::ESCAPE).await;
                page.click_words(".piece a", "Exam").await;
                page.click_words("#held button", "Show held marks").await;
                page.wait_for(".piece .marks").await;
            }
            Self::SittingReleased => {
                release(page).await;
                page.click_words(".piece a", "Exam").await;
                page.click_words(".piece button", "Give feedback").await;
                page.click("dialog[open] .button[data-kind=primary]").await;
                page.wait_text(".piece", "Feedback given").await;
            }
            Self::SheetReleased => {
                page.click_words(".piece a", "Ida Jarrow").await;
                page.wait_text(".paper", "Released").await;
            }
            Self::Help => page.go("/help").await,
            Self::UnknownAddress => page.go("/nowhere/at/all").await,
            Self::InventedAgreement => shown(page).await,
            Self::InventedLearner => {
                forget_all(page).await;
                // One who marked own pieces too.
                invented_learner(page, "Nell Ashgrove").await;
                page.wait_for("#own-marks").await;
                unfold_numbers(page).await;
            }
        }
    }
}
