//! Flash in RAM and the trace codec.
#![no_std]
