//! Inputs to begin with.
