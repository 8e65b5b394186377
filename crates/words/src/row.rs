//! Rows of messages: a name, its English, its German. The enum, what each of it says in either language and
//! the list of all of it come from the rows, so that none can be missing.

/// Makes an enum of messages without arguments.
///
/// ```ignore
/// words! {
///     /// Heads of columns.
///     pub enum Head {
///         Cable: "Cable" | "Leitung",
///         Law: "U = R I" | same,
///     }
/// }
/// ```
macro_rules! words {
    ($(#[$doc:meta])* pub enum $name:ident {
        $($variant:ident: $english:literal | $german:tt,)*
    }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name {
            $(#[doc = concat!("`` ", $english, " ``")] $variant,)*
        }

        impl $name {
            /// Every one, in the order of the rows.
            pub const ALL: &'static [$name] = &[$($name::$variant),*];

            /// The row: English, German.
            pub const fn row(self) -> [&'static str; 2] {
                match self {
                    $($name::$variant => $crate::row::row!($english, $german),)*
                }
            }

            /// What it says.
            pub const fn say(self, language: latchline_finding::Language) -> &'static str {
                $crate::row::of(self.row(), language)
            }
        }

        impl $name {
            /// In both languages, as an argument of a finding.
            pub fn both(self) -> latchline_finding::Both {
                let [english, german] = self.row();
                latchline_finding::Both::new(english, german)
            }
        }

        impl From<$name> for latchline_finding::Both {
            fn from(word: $name) -> Self {
                word.both()
            }
        }

        impl $crate::template::Say for $name {
            fn said(&self) -> $crate::template::Said<'_> {
                $crate::template::Said::Row(self.row())
            }
        }
    };
}

/// English and German of a row. Where both are one, the row says so with `same`; a row without German does not compile.
macro_rules! row {
    ($both:literal, same) => {
        [$both, $both]
    };
    ($english:literal, $german:literal) => {
        [$english, $german]
    };
}

/// Makes an enum of messages with typed arguments. The texts are templates (see `template.rs`): `{name}` stands for
/// an argument, `{count:device|devices}` puts the noun after a count, `<...>` is left out where an argument in it is
/// missing.
///
/// ```ignore
/// sentences! {
///     /// What a sheet says.
///     pub enum Sentence<'a> {
///         Dark { devices: usize, first: Option<&'a str> }:
///             "{devices:device is|devices are} dark<, {first} first>"
///             | "{devices:Gerät ist|Geräte sind} aus<, zuerst {first}>",
///     }
/// }
/// ```
macro_rules! sentences {
    ($(#[$doc:meta])* pub enum $name:ident $(<$life:lifetime>)? {
        $($variant:ident $({ $($argument:ident: $type:ty),* $(,)? })?: $english:literal | $german:tt,)*
    }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, PartialEq)]
        pub enum $name $(<$life>)? {
            $(
                #[doc = concat!("`` ", $english, " ``")]
                $variant $({ $(#[doc = concat!("What stands for `", stringify!($argument), "`.")] $argument: $type),* })?,
            )*
        }

        impl $(<$life>)? $name $(<$life>)? {
            /// The row: English, German.
            pub fn row(&self) -> [&'static str; 2] {
                match self {
                    $($name::$variant { .. } => $crate::row::row!($english, $german),)*
                }
            }

            /// What it says, in a language and metric units or as a locale has it.
            pub fn say(&self, locale: impl Into<latchline_finding::Locale>) -> String {
                let locale: latchline_finding::Locale = locale.into();
                match self {
                    $($name::$variant $({ $($argument),* })? => {
                        let arguments: &[(&str, $crate::template::Said<'_>)] =
                            &[$($((stringify!($argument), $crate::template::Say::said($argument))),*)?];
                        $crate::template::filled($crate::row::of(self.row(), locale.language), arguments, locale)
                    })*
                }
            }

            /// What it says in both languages.
            pub fn both(&self) -> latchline_finding::Both {
                use latchline_finding::Language::{English, German};
                latchline_finding::Both::new(self.say(English), self.say(German))
            }
        }

        #[cfg(test)]
        #[allow(unused_lifetimes, reason = "some rows have no argument that is borrowed")]
        impl $(<$life>)? $name $(<$life>)? {
            /// Name, English, German and arguments of every row, those that may be missing with a `?`.
            pub(crate) const ROWS: &'static [$crate::row::SentenceRow] = &[$(
                (
                    stringify!($variant),
                    $crate::row::row!($english, $german),
                    &[$($((stringify!($argument), stringify!($type))),*)?],
                ),
            )*];
        }

        impl $(<$life>)? From<$name $(<$life>)?> for latchline_finding::Both {
            fn from(sentence: $name $(<$life>)?) -> Self {
                sentence.both()
            }
        }
    };
}

pub(crate) use {row, sentences, words};

use latchline_finding::Language;

/// The name of a variant for programs: `BridgedTap` is `bridged-tap`.
pub(crate) fn kebab(camel: &str) -> String {
    let mut text = String::new();
    for sign in camel.chars() {
        if sign.is_uppercase() && !text.is_empty() {
            text.push('-');
        }
        text.extend(sign.to_lowercase());
    }
    text
}

/// The text of a row in a language.
pub const fn of(row: [&'static str; 2], language: Language) -> &'static str {
    match language {
        Language::English => row[0],
        Language::German => row[1],
    }
}

/// Name, texts and arguments with their types of a row.
#[cfg(test)]
pub(crate) type SentenceRow = (&'static str, [&'static str; 2], &'static [(&'static str, &'static str)]);
