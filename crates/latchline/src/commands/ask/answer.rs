//! One answer, as text and as JSON.

use super::super::written::{TextOrJson, WrittenArguments};
use super::document;
use crate::refusal::Result;
use latchline_report::Look;
use latchline_report::table::paragraph;
use latchline_words::commands::AskWords;
use serde::Serialize;
use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

/// What is said, and whether what was asked for works.
pub(in super::super) struct Answer {
    text: String,
    json: String,
    works: bool,
}

impl Answer {
    /// An answer of these sentences, the one to say first; `figures` are what they were made of.
    pub(super) fn new(
        question: &'static str,
        lines: Vec<String>,
        works: bool,
        look: &Look,
        figures: impl Serialize,
    ) -> Result<Self> {
        let mut text: String = lines.iter().map(|line| paragraph(line, 0, look.width)).collect();
        text.push_str(&paragraph(&AskWords::Caution.say(look.language), 0, look.width));
        Answer::drawn(question, lines, text, works, figures)
    }

    /// An answer whose text is laid out otherwise.
    pub(super) fn drawn(
        question: &'static str,
        lines: Vec<String>,
        text: String,
        works: bool,
        figures: impl Serialize,
    ) -> Result<Self> {
        Ok(Answer { text, json: document::json(question, &lines, works, figures)?, works })
    }

    /// Writes it as wanted; the exit status says whether it works.
    pub(in super::super) fn put(
        &self,
        written: &WrittenArguments<TextOrJson>,
        inputs: &[PathBuf],
        output: &mut dyn Write,
    ) -> Result<ExitCode> {
        let text = match written.format {
            TextOrJson::Text => &self.text,
            TextOrJson::Json => &self.json,
        };
        written.result.put(text, inputs, output)?;
        Ok(ExitCode::from(u8::from(!self.works)))
    }
}
