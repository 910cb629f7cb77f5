//! What a panic path comes to: an image that does not link.

use core::panic::PanicInfo;

unsafe extern "C" {
    /// Defined nowhere; the linker prints the name, and `.ci/firmware` looks
    /// for it.
    fn a_panic_path_is_left_in_the_firmware() -> !;
}

#[panic_handler]
fn panic(_: &PanicInfo<'_>) -> ! {
    // SAFETY: never runs, since no image with this call can be linked.
    unsafe { a_panic_path_is_left_in_the_firmware() }
}
