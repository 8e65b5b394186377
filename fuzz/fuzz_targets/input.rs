//! One program for all targets, since each would hold the whole of the rest: which of them it tries, LATCHLINE_TARGET says.
#![no_main]

use std::sync::LazyLock;

static TRY: LazyLock<fn(&[u8])> = LazyLock::new(|| {
    let name = std::env::var("LATCHLINE_TARGET").unwrap_or_default();
    latchline_fuzz::target(&name)
});

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| TRY(bytes));
