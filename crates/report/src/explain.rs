//! The manual page of a code, and the list of all codes.

use crate::paint::Look;
use crate::table::{paragraph, width};
use latchline_finding::CodeDoc;
use std::fmt::Write;

/// The manual page of one code.
pub fn page(doc: &CodeDoc, look: &Look) -> String {
    let mut text = String::new();
    let title = format!("{} ({})", doc.code, doc.severity.word());
    let _ = writeln!(text, "{}", look.severity(doc.severity, &title));
    text.push_str(&paragraph(&sentence(doc.title), 0, look.width));
    text.push('\n');
    for block in manual(doc).split("\n\n") {
        text.push_str(&block_text(block, look));
        text.push('\n');
    }
    text.truncate(text.trim_end().len());
    text.push('\n');
    text
}

/// The text of a manual page. Pages that are doc comments have a space before every line.
pub fn manual(doc: &CodeDoc) -> String {
    let lines = || doc.explanation.lines();
    let indented = lines().all(|line| line.is_empty() || line.starts_with(' '));
    let line =
        |line: &'static str| if indented { line.strip_prefix(' ').unwrap_or(line) } else { line }.trim_end();
    let text: Vec<&str> = lines().map(line).collect();
    text.join("\n").trim_matches('\n').to_string()
}

/// All codes by severity, one line each.
pub fn list(docs: &[&CodeDoc], look: &Look) -> String {
    let mut docs = docs.to_vec();
    docs.sort_by_key(|doc| (std::cmp::Reverse(doc.severity), doc.code));
    docs.dedup_by_key(|doc| doc.code);
    let widest = docs.iter().map(|doc| width(doc.code.as_str())).max().unwrap_or(0);
    let mut text = String::new();
    for doc in docs {
        let severity = look.severity(doc.severity, &format!("{:<7}", doc.severity.word()));
        let _ = writeln!(text, "{severity}  {:<widest$}  {}", doc.code, doc.title);
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
    use latchline_finding::{Code, Severity};

    const DOC: CodeDoc = CodeDoc {
        code: Code("thin-margin"),
        severity: Severity::Warning,
        title: "a station has little voltage in hand",
        explanation: "# What it checks\nThe margin of every\nstation.\n\n# Example\n\n    a = 1\n    b = 2\n\nEnd.",
    };

    #[test]
    fn a_page_is_set_to_the_width_and_keeps_examples() {
        assert_eq!(
            page(&DOC, &Look::default()),
            "thin-margin (warning)\nA station has little voltage in hand.\n\nWhat it checks\nThe margin of every \
             station.\n\nExample\n\n    a = 1\n    b = 2\n\nEnd.\n"
        );
    }

    #[test]
    fn pages_from_doc_comments_lose_their_leading_space() {
        let doc = CodeDoc { explanation: " # What\n It.\n\n     a = 1\n", ..DOC };
        assert_eq!(manual(&doc), "# What\nIt.\n\n    a = 1");
    }

    #[test]
    fn the_list_has_one_line_a_code() {
        assert_eq!(
            list(&[&DOC, &DOC], &Look::default()),
            "warning  thin-margin  a station has little voltage in hand\n"
        );
    }
}
