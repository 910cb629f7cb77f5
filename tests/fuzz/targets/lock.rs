#![no_main]

libfuzzer_sys::fuzz_target!(|story: fuzz::lock::Story| fuzz::lock::run(&story));
