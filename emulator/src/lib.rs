//! A time lock on the desk: a site file to plan with, a command line to ask.

pub mod cli;
pub mod plan;
pub mod site;
