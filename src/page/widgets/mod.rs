//! Parts that pages share, in the markup that the style sheets know.

mod caution;
mod column_names;
mod controls;
mod dialog;
mod drawn;
mod field;
mod file_making;
mod handing;
mod held;
mod picture;
mod piece_list;
mod question;
mod readable;
mod save_cohort;
mod save_drawing;
mod save_paper;
mod save_table;
mod tiles;
mod working;

pub(crate) use caution::Caution;
pub(crate) use controls::{PushButton, TextBox, Tile, TileKind, never_wrong, tile_words, when};
pub(crate) use dialog::Dialog;
pub(crate) use drawn::Drawn;
pub(crate) use field::{SelectField, TextField, described_by};
pub(crate) use handing::{HandingButton, feedback};
pub(crate) use held::{HeldNotice, held_shown, whom};
pub(crate) use picture::{PictureField, picture};
pub(crate) use piece_list::{MarksFigure, PieceList, piece_row};
pub(crate) use question::Question;
pub(crate) use readable::Readable;
pub(crate) use save_cohort::SaveCohort;
pub(crate) use save_drawing::SaveDrawing;
pub(crate) use save_paper::{BENCH_CARDS, CARDS, Each, PAGES, SaveDocument, SaveEach, SavePaper};
pub(crate) use save_table::SaveTable;
pub(crate) use tiles::{TileChoice, Tiles};
pub(crate) use working::{not_worked_out, working};
