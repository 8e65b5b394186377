//! Every code has its words, and they use only arguments that its findings carry.

use latchline_finding::Language;
use latchline_words::codes;
use latchline_words::template::argument_names;
use std::collections::BTreeSet;

/// Fields of a finding that every wording may use.
const FIELDS: [&str; 4] = ["element", "value", "limit", "state"];

#[test]
fn every_code_has_its_own_words_and_no_words_are_idle() {
    let worded: BTreeSet<&str> = codes::ALL.iter().map(|words| words.code).collect();
    let survey = latchline_survey::codes::CODES.iter();
    let known: BTreeSet<&str> =
        latchline_assess::codes().chain(survey).map(|doc| doc.code.as_str()).collect();
    let without: Vec<_> = known.difference(&worded).collect();
    assert!(without.is_empty(), "add files to crates/words/src/codes/ for {without:?}");
    let idle: Vec<_> = worded.difference(&known).collect();
    assert!(idle.is_empty(), "words of codes that do not exist: {idle:?}");
}

#[test]
fn words_for_the_reader_use_arguments_that_its_findings_carry() {
    for doc in latchline_site::codes::CODES.iter().chain(latchline_survey::codes::CODES) {
        let Some(words) = codes::of(doc.code.as_str()) else { continue };
        let known =
            [latchline_site::codes::arguments(doc.code), latchline_survey::codes::arguments(doc.code)]
                .concat();
        for template in [Language::English, Language::German].map(|language| words.templates(language)) {
            for (name, _) in template.iter().flat_map(|text| argument_names(text)) {
                let argument = known.iter().any(|argument| argument.trim_end_matches('?') == name);
                assert!(argument || FIELDS.contains(&name.as_str()), "{}: {name} in {template:?}", doc.code);
            }
            for (name, optional) in argument_names(template[0]) {
                let absent = known.iter().any(|argument| argument.strip_suffix('?') == Some(&name));
                assert!(optional || !absent, "{}: {name} may be absent", doc.code);
            }
        }
    }
}
