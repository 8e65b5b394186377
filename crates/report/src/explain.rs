//! The manual page of a code, and the list of all codes.

use crate::paint::Look;
use crate::table::{hanging, paragraph};
use crate::wrap::width;
use latchline_finding::CodeDoc;
use latchline_words::codes;
use latchline_words::report::{SymptomHead, severity};
use latchline_words::symptoms::Symptom;
use std::fmt::Write;

/// The manual page of one code.
pub fn page(doc: &CodeDoc, look: &Look) -> String {
    let language = look.language;
    let mut text = String::new();
    let severities: Vec<&str> =
        [&[doc.severity], doc.others].concat().into_iter().map(|one| severity(one, language)).collect();
    let title = format!("{} ({})", doc.code, severities.join(", "));
    let _ = writeln!(text, "{}", look.severity(doc.severity, &title));
    let Some(words) = codes::of(doc.code.as_str()) else { return text };
    text.push_str(&paragraph(&sentence(words.title(language)), 0, look.width));
    text.push('\n');
    if let Some(measure) = words.measure(language) {
        let _ = writeln!(text, "{}", look.bold(SymptomHead::MeasureFirst.say(language)));
        text.push_str(&paragraph(measure, 0, look.width));
        text.push('\n');
    }
    for block in words.page(language).split("\n\n") {
        text.push_str(&block_text(block, look));
        text.push('\n');
    }
    text.truncate(text.trim_end().len());
    text.push('\n');
    text
}

/// The page of a symptom: what to measure first, what it may come of, and what to do then.
pub fn symptom(symptom: &Symptom, look: &Look) -> String {
    let language = look.language;
    let mut text = format!("{}\n\n", look.bold(symptom.title(language)));
    let head = if symptom.codes.is_empty() { SymptomHead::DoFirst } else { SymptomHead::MeasureFirst };
    let _ = writeln!(text, "{}", look.bold(head.say(language)));
    text.push_str(&paragraph(symptom.measure(language), 2, look.width));
    if symptom.codes.is_empty() {
        return text;
    }
    let _ = writeln!(text, "\n{}", look.bold(SymptomHead::MayBe.say(language)));
    let widest = symptom.codes.iter().map(|code| width(code)).max().unwrap_or(0);
    for code in symptom.codes {
        let title = codes::of(code).map_or("", |words| words.title(language));
        text.push_str(&hanging(&format!("  {code:<widest$}  "), title, look.width));
    }
    text.push('\n');
    text.push_str(&paragraph(SymptomHead::Then.say(language), 0, look.width));
    text
}

/// Symptoms that may be meant, each with what to ask for.
pub fn symptoms(near: &[&Symptom], look: &Look) -> String {
    let mut text = paragraph(SymptomHead::WhichIsIt.say(look.language), 0, look.width);
    for symptom in near {
        let _ = writeln!(text, "  {}", look.bold(symptom.title(look.language)));
        let _ = writeln!(text, "    latchline explain {}", symptom.short(look.language));
    }
    text
}

/// All codes by severity, one line each.
pub fn list(docs: &[&CodeDoc], look: &Look) -> String {
    let language = look.language;
    let mut docs = docs.to_vec();
    docs.sort_by_key(|doc| (std::cmp::Reverse(doc.severity), doc.code));
    docs.dedup_by_key(|doc| doc.code);
    let widest = docs.iter().map(|doc| width(doc.code.as_str())).max().unwrap_or(0);
    let mut text = String::new();
    for doc in docs {
        let severity = look.severity(doc.severity, &format!("{:<7}", severity(doc.severity, language)));
        let title = codes::of(doc.code.as_str()).map_or("", |words| words.title(language));
        let _ = writeln!(text, "{severity}  {:<widest$}  {title}", doc.code);
    }
    text
}

/// A paragraph is set to the page; one with indented lines (an example) or list items stays as it
/// is written.
fn block_text(block: &str, look: &Look) -> String {
    let kept = block.lines().any(|line| {
        let line = line.trim_end();
        line.starts_with("    ")
            || line.starts_with("```")
            || line.starts_with("- ")
            || line.starts_with("* ")
    });
    if kept {
        return block.lines().map(|line| format!("{}\n", line.trim_end())).collect();
    }
    if let Some(heading) = block.strip_prefix('#') {
        let (heading, rest) = heading.split_once('\n').unwrap_or((heading, ""));
        let mut text = format!("{}\n", look.bold(heading.trim_start_matches('#').trim()));
        if !rest.trim().is_empty() {
            text.push_str(&block_text(rest, look));
        }
        return text;
    }
    let joined: Vec<&str> = block.split_whitespace().collect();
    paragraph(&joined.join(" "), 0, look.width)
}

/// With a capital letter and a full stop.
fn sentence(text: &str) -> String {
    let mut signs = text.chars();
    let capital: String = signs.next().into_iter().flat_map(char::to_uppercase).chain(signs).collect();
    if capital.ends_with(['.', '?', '!']) { capital } else { format!("{capital}.") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use latchline_finding::{Code, Language, Severity};

    #[test]
    fn a_page_is_set_to_the_width_and_keeps_its_headings() {
        let doc = CodeDoc { code: Code("thin-margin"), severity: Severity::Warning, others: &[] };
        let english = page(&doc, &Look::default());
        assert!(english.starts_with(
            "thin-margin (warning)\nHardly any voltage to spare at a device.\n\nMeasure first\nThe voltage at"
        ));
        assert!(
            english.ends_with("if you judge otherwise.\n")
                && english.contains("\n\nWhat it checks\n")
                && english.contains("\n\nExample\nA-504 keeps")
        );
        let german = page(&doc, &Look { language: Language::German, ..Look::default() });
        assert!(german.starts_with(
            "thin-margin (Warnung)\nKaum Spannung übrig an einem Gerät.\n\nZuerst messen\nDie Spannung an"
        ));
    }

    #[test]
    fn a_page_names_every_severity_that_a_finding_may_have() {
        let doc = CodeDoc {
            code: Code("cable-unsuitable"),
            severity: Severity::Error,
            others: &[Severity::Warning, Severity::Advice],
        };
        assert!(page(&doc, &Look::default()).starts_with("cable-unsuitable (error, warning, advice)\n"));
    }

    #[test]
    fn examples_keep_their_lines() {
        assert_eq!(
            block_text("# Example\n    a = 1\n    b = 2", &Look::default()),
            "# Example\n    a = 1\n    b = 2\n"
        );
    }

    #[test]
    fn the_list_has_one_line_a_code() {
        let doc = CodeDoc { code: Code("thin-margin"), severity: Severity::Warning, others: &[] };
        assert_eq!(
            list(&[&doc, &doc], &Look::default()),
            "warning  thin-margin  Hardly any voltage to spare at a device\n"
        );
    }
}
