//! Checks from outside; everything is in the test binaries.
