//! Colour, width and language: how a text is to look.

use anstyle::{AnsiColor, Style};
use latchline_finding::{Figure, Language, Locale, Severity, Units};
use latchline_words::figures;

/// How a text is to look.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// Whether colour and bold are wanted. Severity is always a word as well.
    pub colour: bool,
    /// Columns of the page.
    pub width: usize,
    /// Language of all that is not the user's own words.
    pub language: Language,
}

impl Default for Look {
    /// Plain, 100 columns, English.
    fn default() -> Self {
        Self { colour: false, width: 100, language: Language::English }
    }
}

impl Look {
    /// The same in another language.
    #[must_use]
    pub fn in_language(self, language: Language) -> Self {
        Self { language, ..self }
    }

    /// Its language with metric units.
    pub fn locale(&self) -> Locale {
        Locale { language: self.language, ..Locale::default() }
    }

    /// A figure as it stands in a sentence.
    pub(crate) fn figure(&self, figure: Figure) -> String {
        figures::sentence(figure, self.language)
    }

    /// A number that is written with a decimal point, with the decimal sign of the language.
    pub(crate) fn decimals(&self, number: String) -> String {
        figures::decimals(number, self.language)
    }

    /// The sign of the ohm.
    pub(crate) fn ohm(&self) -> &'static str {
        Locale { language: self.language, units: Units::Metric }.ohm("ohm")
    }

    /// Text in bold.
    pub fn bold(&self, text: &str) -> String {
        self.paint(Style::new().bold(), text)
    }

    /// Text of secondary importance.
    pub fn faint(&self, text: &str) -> String {
        self.paint(Style::new().dimmed(), text)
    }

    /// Text in the colour of a severity.
    pub fn severity(&self, severity: Severity, text: &str) -> String {
        let colour = match severity {
            Severity::Error => AnsiColor::BrightRed,
            Severity::Warning => AnsiColor::Yellow,
            Severity::Advice => AnsiColor::Cyan,
        };
        self.paint(colour.on_default().bold(), text)
    }

    /// Text in the colour of something that holds.
    pub fn good(&self, text: &str) -> String {
        self.paint(AnsiColor::Green.on_default().bold(), text)
    }

    fn paint(&self, style: Style, text: &str) -> String {
        if self.colour && !text.is_empty() {
            return format!("{}{text}{}", style.render(), style.render_reset());
        }
        text.to_string()
    }
}
