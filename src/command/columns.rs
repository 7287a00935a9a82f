//! The columns of tables under a college's own names.

use super::apply::put;
use super::{Change, CommandError};
use crate::records::{Layout, Ledger, NamedColumn, Stamp, TableHead, column_faults};

/// Writes the columns of `layout`; none, or the usual ones, stand for the usual ones.
pub(super) fn set(
    ledger: &Ledger,
    layout: Layout,
    mut columns: Vec<NamedColumn>,
    stamp: &Stamp,
) -> Result<Change, CommandError> {
    if columns == layout.usual() {
        columns.clear();
    }
    if ledger.columns(layout) == columns {
        return Ok(Change::default());
    }
    if let Some((_, fault)) = column_faults(layout, &columns).into_iter().next() {
        return Err(CommandError::Column(fault));
    }
    let head = ledger.table_heads().find(|head| head.layout == layout);
    Ok(put(TableHead {
        layout,
        stamp: head.map_or_else(|| stamp.clone(), |head| stamp.after(&head.stamp)),
        columns,
    }))
}
