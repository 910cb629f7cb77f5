//! The house rules: what the code promises about itself, held against the code
//! and its sources.

mod diagram;
mod source;
mod state_table;
mod tidy;
