//! How a command that could not run says so.

use crate::refusal::Refusal;
use crate::typed;
use latchline_finding::{Language, shown};
use latchline_words::refusals::{FileRefusal, SystemRefusal};
use std::io::Write as _;
use std::path::PathBuf;
use std::process::ExitCode;

/// Exit status of a command that could not run, or whose input cannot be used.
pub const UNUSABLE: u8 = 2;

/// Prints why a command could not run, each cause on a line of its own, and gives the exit status. Where it is the result that could not
/// be written, it also says what was `written` besides: the command may have done its work.
/// What stands in it of files and arguments is shown, never obeyed.
pub fn report(refusal: &Refusal, written: &[PathBuf], language: Language) -> ExitCode {
    // Nothing is left to tell it to if standard error is closed.
    let _ = std::io::stderr().write_all(text(refusal, written, language).as_bytes());
    ExitCode::from(UNUSABLE)
}

fn text(refusal: &Refusal, written: &[PathBuf], language: Language) -> String {
    let mut lines: Vec<String> = refusal.lines(language).into_iter().map(String::from).collect();
    if refusal.is_of_output() {
        if written.is_empty() {
            lines.push(SystemRefusal::NoFileChanged.say(language));
        }
        let told = |path: &PathBuf| FileRefusal::WrittenAllTheSame { file: &shown::path(path) }.say(language);
        lines.extend(written.iter().map(told));
    }
    let error = SystemRefusal::Error.say(language);
    let mut text = String::new();
    for (at, words) in lines.iter().enumerate() {
        let lead = if at == 0 { format!("{error}: ") } else { String::from("  ") };
        let words = typed::shortened(words, &typed::arguments());
        text.push_str(&format!("{lead}{}\n", shown::prose(&words)));
    }
    text
}
