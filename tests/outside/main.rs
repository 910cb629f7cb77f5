//! outside
