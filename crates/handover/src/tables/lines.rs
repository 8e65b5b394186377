//! The lines that files of every kind carry.

use crate::language::{Sentence, Word};
use crate::locale::Locale;
use crate::subject::Subject;

/// The cautions that every file carries.
pub fn cautions(locale: &Locale) -> Vec<&'static str> {
    [
        Word::CautionIsolate,
        Word::CautionMains,
        Word::CautionApart,
        Word::CautionEscape,
        Word::CautionCodes,
        Word::CautionNoCertificate,
    ]
    .into_iter()
    .map(|word| locale.word(word))
    .collect()
}

/// The line that says which site, revision and input a file is made from.
pub fn origin_line(subject: &Subject<'_>) -> String {
    let site = if subject.site.title.is_empty() { "–" } else { &subject.site.title };
    let (revision, hash) = (&subject.stamp.revision, &subject.stamp.input_sha256);
    match &subject.stamp.date {
        Some(date) => {
            let date = subject.locale.date(date);
            subject.locale.say(&Sentence::Origin { site, revision, date: &date, hash })
        }
        None => subject.locale.say(&Sentence::OriginUndated { site, revision, hash }),
    }
}

/// What stands on every sheet of a site with errors.
pub fn error_line(subject: &Subject<'_>) -> Option<String> {
    let errors = subject.errors();
    (errors > 0).then(|| subject.locale.say(&Sentence::SiteHasErrors { count: &errors.to_string() }))
}
