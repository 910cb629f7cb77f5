//! House rules: what people meet when they make mistakes.

mod bad_input;
mod plan_check;
mod site_text;
