//! The house rules: what the code promises about itself, held against the code
//! and its sources; and what people meet when they make mistakes.

mod audits;
mod bad_codes;
mod bad_input;
mod cautions;
mod conformance;
mod diagram;
mod dialogues;
mod drills;
mod keeper;
mod link_property;
mod mutations;
mod plan_check;
mod planning;
mod porting;
mod power_loss;
mod promises;
mod race;
mod silence;
mod site_text;
mod source;
mod state_table;
mod tidy;
mod walker;
mod why;
