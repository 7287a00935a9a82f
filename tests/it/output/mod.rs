pub mod csv;
mod file_name;
mod json;
mod marking_schema;
mod pdf;
mod svg;
mod text;
pub mod xlsx;
