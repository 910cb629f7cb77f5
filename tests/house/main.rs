//! The house rules: what the code promises about itself, held against the code
//! and its sources.

mod state_table;
