//! The codes of all findings, and the nearest to a misspelt one.

use crate::refusal::{Refusal, Result};
use latchline_finding::{Both, CodeDoc, Language};
use latchline_words::refusals::{NameRefusal, either};

/// All codes in alphabetical order.
pub fn all() -> Vec<&'static CodeDoc> {
    let mut codes: Vec<&'static CodeDoc> =
        latchline_assess::codes().chain(latchline_survey::codes::CODES).collect();
    codes.sort_by_key(|doc| doc.code);
    codes
}

/// The code with this name.
///
/// # Errors
/// If there is none; the message names the nearest.
pub fn find(code: &str) -> Result<&'static CodeDoc> {
    all().into_iter().find(|doc| doc.code == code).ok_or_else(|| {
        let hint = match nearest(code).as_slice() {
            [] => NameRefusal::AllCodes.both(),
            near => NameRefusal::DidYouMean { names: &either(near) }.both(),
        };
        Refusal::new(hint).within(NameRefusal::NoCode { code })
    })
}

/// The same where a symptom may be told in place of a code.
///
/// # Errors
/// If there is none; the message names the nearest.
pub fn find_for_symptom(code: &str) -> Result<&'static CodeDoc> {
    all().into_iter().find(|doc| doc.code == code).ok_or_else(|| {
        let short = |language| {
            latchline_words::symptoms::all()
                .iter()
                .map(|one| one.short(language))
                .collect::<Vec<_>>()
                .join(", ")
        };
        let symptoms = &Both::new(short(Language::English), short(Language::German));
        let near = nearest(code);
        let names = &either(&near);
        let hint = match near.as_slice() {
            [] => NameRefusal::Symptoms { symptoms },
            // A slip in a code; symptoms are told in words.
            _ if code.contains('-') => NameRefusal::DidYouMean { names },
            _ => NameRefusal::DidYouMeanOrSymptom { names, symptoms },
        };
        Refusal::from(hint).within(NameRefusal::NoCodeNoSymptom { code })
    })
}

/// The codes that are spelt most like this one; none that is not much like it.
fn nearest(code: &str) -> Vec<&'static str> {
    let mut nearest: Vec<(f64, &str)> =
        all().iter().map(|doc| (-strsim::jaro_winkler(code, doc.code.as_str()), doc.code.as_str())).collect();
    nearest.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(b.1)));
    nearest.iter().filter(|(distance, _)| *distance < -0.75).take(3).map(|(_, code)| *code).collect()
}
