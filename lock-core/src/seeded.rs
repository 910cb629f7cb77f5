//! `canary!(Name)`: whether that bug was chosen. In a normal build it is the
//! word `false`, and nothing of it is compiled.

#[cfg(canary)]
macro_rules! canary {
    ($bug:ident) => {
        $crate::canary::chosen($crate::canary::Bug::$bug)
    };
}

#[cfg(not(canary))]
macro_rules! canary {
    ($bug:ident) => {
        false
    };
}
