//! The wording of findings in German.

mod findings;
mod titles;

pub use findings::{SENTENCES, template};
pub use titles::title;

#[cfg(test)]
mod tests {
    use super::{SENTENCES, template, title};
    use crate::english::message_template;
    use crate::template::argument_names;
    use std::collections::BTreeSet;

    #[test]
    fn every_code_has_a_german_title() {
        let codes = latchline_assess::codes().map(|doc| doc.code.as_str());
        let missing: Vec<&str> = codes.filter(|code| title(code).is_none()).collect();
        assert!(missing.is_empty(), "no German title: {missing:?}");
    }

    /// Every rule and every code of addresses has a sentence; each says the element, value and limit that
    /// the English one says, and asks for no argument that the English one does not know.
    #[test]
    fn every_finding_of_a_site_has_a_german_sentence() {
        let names = |template: &str| -> BTreeSet<String> {
            argument_names(template).into_iter().map(|(name, _)| name).collect()
        };
        for code in latchline_assess::codes().map(|doc| doc.code.as_str()) {
            let german = template(code);
            let german = german.unwrap_or_else(|| panic!("no German sentence for {code}"));
            assert!(german.starts_with(|sign: char| sign.is_uppercase() || sign == '{'), "{code}");
        }
        for (code, german) in SENTENCES {
            let english = message_template(code);
            let english = english.unwrap_or_else(|| panic!("no English message for {code}"));
            assert!(names(german).is_subset(&names(english)), "{code}: {german} / {english}");
            for field in ["element", "value", "limit", "lock"] {
                assert_eq!(
                    names(german).contains(field),
                    names(english).contains(field),
                    "{code}: {field} in {german} / {english}"
                );
            }
            assert_eq!(german.matches('<').count(), german.matches('>').count(), "{code}");
        }
    }
}
