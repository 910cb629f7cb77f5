#![no_main]

libfuzzer_sys::fuzz_target!(|story: fuzz::sequence::Story| fuzz::sequence::run(&story));
