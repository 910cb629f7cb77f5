//! model
