//! What is not ours and judges us: published vectors, standards, other people's
//! counts. A module a source or rule, each naming its source at the top.

mod guess_limits;
mod guessable;
mod hmac_vectors;
mod keypad_layout;
