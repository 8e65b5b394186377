//! A kind of finding.

/// Declares the codes of findings of one crate, each in one row: constant, code, usual severity and names of the arguments that its
/// findings carry; those marked with `?` may be absent.
///
/// Makes a constant of each code, `CODES` of all, and `arguments`. What they say is in the crate of words.
///
/// ```
/// latchline_finding::codes! {
///     PIPE_TOO_THIN, "pipe-too-thin", Error, ["pipe", "room?"];
/// }
/// assert_eq!(CODES[0].code, PIPE_TOO_THIN);
/// assert_eq!(arguments(PIPE_TOO_THIN), ["pipe", "room?"]);
/// ```
#[macro_export]
macro_rules! codes {
    ($($name:ident, $code:literal, $severity:ident, [$($argument:literal),*];)*) => {
        $(
            #[doc = concat!("`", $code, "`")]
            pub const $name: $crate::Code = $crate::Code($code);
        )*

        /// Every code of this crate.
        pub const CODES: &[$crate::CodeDoc] = &[$(
            $crate::CodeDoc { code: $name, severity: $crate::Severity::$severity, others: &[] },
        )*];

        /// Names of the arguments that the findings of a code of this crate carry; those marked with `?` may be absent.
        pub fn arguments(code: $crate::Code) -> &'static [&'static str] {
            match code {
                $($name => &[$($argument),*],)*
                _ => &[],
            }
        }
    };
}

use crate::{Code, Severity};

/// A kind of finding. What it says and its manual page are in the crate of words, under its code.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CodeDoc {
    /// The code.
    pub code: Code,
    /// Usual severity.
    pub severity: Severity,
    /// Other severities that its findings may have.
    pub others: &'static [Severity],
}
