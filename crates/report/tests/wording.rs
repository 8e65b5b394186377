//! Every code has its own words, and they use only arguments that its findings carry.

use latchline_report::english;
use latchline_site::codes::arguments;
use std::collections::BTreeSet;

/// Fields of a finding that every wording may use.
const FIELDS: [&str; 4] = ["element", "value", "limit", "state"];

/// The names between braces.
fn names(template: &str) -> Vec<&str> {
    let starts = template.match_indices('{');
    starts
        .filter_map(|(start, _)| {
            let inner = &template[start + 1..];
            inner[..inner.find('}')?].split(':').next()
        })
        .collect()
}

#[test]
fn every_code_has_its_own_words() {
    let worded: Vec<&str> = english::all().map(|words| words.code).collect();
    let unique: BTreeSet<&str> = worded.iter().copied().collect();
    assert_eq!(unique.len(), worded.len(), "no code is worded twice");
    let known: BTreeSet<&str> = latchline_assess::codes().map(|doc| doc.code.as_str()).collect();
    let without: Vec<_> = known.difference(&unique).collect();
    assert!(without.is_empty(), "add words in src/english/ for {without:?}");
    let idle: Vec<_> = unique.difference(&known).collect();
    assert!(idle.is_empty(), "words of codes that do not exist: {idle:?}");
}

#[test]
fn words_for_the_reader_use_arguments_that_its_findings_carry() {
    for doc in latchline_site::codes::CODES {
        let Some(words) = english::all().find(|words| words.code == doc.code.as_str()) else { continue };
        for template in [words.message, words.label, words.hint] {
            for name in names(template) {
                let argument =
                    arguments(doc.code).iter().any(|argument| argument.trim_end_matches('?') == name);
                assert!(argument || FIELDS.contains(&name), "{}: {name} in \"{template}\"", doc.code);
            }
        }
        let optional =
            |name: &str| arguments(doc.code).iter().any(|argument| argument.strip_suffix('?') == Some(name));
        let outside: String =
            words.message.split('<').map(|part| part.rsplit('>').next().unwrap_or(part)).collect();
        assert!(
            names(&outside).iter().all(|name| !optional(name)),
            "{}: an argument may be absent",
            doc.code
        );
    }
}

#[test]
fn braces_and_brackets_of_all_words_are_paired() {
    for words in english::all() {
        for template in [words.message, words.label, words.hint] {
            let mut open = Vec::new();
            for sign in template.chars() {
                match sign {
                    '{' | '<' => {
                        assert!(!open.contains(&sign), "{}: nested in \"{template}\"", words.code);
                        open.push(sign);
                    }
                    '}' => assert_eq!(open.pop(), Some('{'), "{}: \"{template}\"", words.code),
                    '>' => assert_eq!(open.pop(), Some('<'), "{}: \"{template}\"", words.code),
                    _ => {}
                }
            }
            assert!(open.is_empty(), "{}: \"{template}\"", words.code);
        }
        assert!(!words.message.is_empty() && !words.message.ends_with('.'), "{}", words.code);
    }
}
