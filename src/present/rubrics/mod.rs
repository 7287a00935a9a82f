//! Rubrics as a college owns them: the list, one as it is read, one in work as text and
//! as forms.

mod against;
mod copy;
mod fields;
mod form;
mod from_photo;
mod ids;
mod list;
mod optional;
mod plan;
mod read;
mod work;

pub use against::{NoTrial, compare_page, try_page};
pub use copy::{BLANK, copy_of, next_version};
pub use form::{Add, FieldKind, FormField, FormPart, FormPlan, FormRow, FormTable, field_edit};
pub use list::{
    DraftRow, RubricList, RubricRow, TryRow, own_offers, rubric_list, text_of, try_rows,
};
pub use plan::form_plan;
pub use read::{RubricPage, VersionRow, rubric_page};
pub use work::{Beside, Trouble, Work, beside, keep_command, scratch, too_long, work};
