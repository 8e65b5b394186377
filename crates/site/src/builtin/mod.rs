//! The catalogue that comes with the program: generic cables and locks, and three invented
//! families for trying things out.

/// Name and text of the built-in catalogue.
pub fn builtin_catalogue() -> (&'static str, &'static str) {
    (
        "built-in catalogue",
        concat!(
            include_str!("generic.toml"),
            include_str!("ostrel-48.toml"),
            include_str!("larkfen-24.toml"),
            include_str!("mossop-24.toml"),
        ),
    )
}
