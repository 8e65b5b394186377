//! A survey, as a workbook or as sheets of comma-separated values: read, told, and designed where it is small.

use super::house::LANGUAGES;
use latchline_design::{Effort, Texts, design};
use latchline_finding::{FileId, Language, Severity, Sources};
use latchline_site::{LoadedCatalogues, builtin_catalogue};
use latchline_survey::table::{Sheet, from_csv};
use latchline_survey::workbook::{from_xlsx, sheet_names};
use latchline_survey::{Problem, unknown_parts};
use latchline_words::codes::wording;

/// Dwellings up to which a survey is designed: the search grows with them.
const MOST_DESIGNED: usize = 3;
/// Begins the name of a part of a workbook, or of a sheet, in the inputs that are written as text.
const NAMES: &str = "=== ";

/// As the bytes of a workbook. What is no archive is taken as its parts, each behind a line with its name, and packed first: changes
/// of packed bytes seldom get further than their sum of check.
pub fn workbook(bytes: &[u8]) {
    let packed = if bytes.starts_with(NAMES.as_bytes()) { packed(bytes) } else { bytes.to_vec() };
    sheet_names(&packed);
    read(|file, problems| from_xlsx(file, &packed, problems));
}

/// As sheets of comma-separated values, each behind a line with its name.
pub fn sheets(bytes: &[u8]) {
    read(|file, problems| {
        parts(bytes)
            .iter()
            .filter_map(|(name, part)| from_csv(file, &String::from_utf8_lossy(name), part, problems))
            .collect()
    });
}

/// Names with what stands behind them.
fn parts(bytes: &[u8]) -> Vec<(&[u8], &[u8])> {
    let mut parts: Vec<(&[u8], &[u8])> = Vec::new();
    let mut rest = bytes;
    while let Some(named) = rest.strip_prefix(NAMES.as_bytes()) {
        let end = named.iter().position(|byte| *byte == b'\n').unwrap_or(named.len());
        let body = named.get(end + 1..).unwrap_or_default();
        let next = body
            .windows(NAMES.len() + 1)
            .position(|window| window[0] == b'\n' && window[1..] == *NAMES.as_bytes());
        let (part, after) = next.map_or((body, &[][..]), |at| (&body[..at], &body[at + 1..]));
        parts.push((&named[..end], part));
        rest = after;
    }
    parts
}

/// An archive of these parts, not compressed (ZIP, APPNOTE 6.3).
fn packed(bytes: &[u8]) -> Vec<u8> {
    let mut out = Vec::new();
    let mut central = Vec::new();
    let parts = parts(bytes);
    for (name, part) in &parts {
        let length = |bytes: &[u8]| u32::try_from(bytes.len()).expect("inputs are small").to_le_bytes();
        let mut head = Vec::new();
        head.extend([20, 0, 0, 0, 0, 0, 0, 0, 0x21, 0]);
        head.extend(crc32(part).to_le_bytes());
        head.extend(length(part));
        head.extend(length(part));
        head.extend(u16::try_from(name.len()).unwrap_or(u16::MAX).to_le_bytes());
        head.extend([0, 0]);
        let name = &name[..name.len().min(usize::from(u16::MAX))];
        let offset = length(&out);
        out.extend(b"PK\x03\x04");
        out.extend(&head);
        out.extend(name);
        out.extend(*part);
        central.extend(b"PK\x01\x02\x14\0");
        central.extend(&head);
        central.extend([0; 10]);
        central.extend(offset);
        central.extend(name);
    }
    let count = u16::try_from(parts.len()).unwrap_or(u16::MAX).to_le_bytes();
    let number = |length: usize| u32::try_from(length).expect("inputs are small").to_le_bytes();
    let start = number(out.len());
    let size = number(central.len());
    out.extend(central);
    out.extend(b"PK\x05\x06\0\0\0\0");
    out.extend(count);
    out.extend(count);
    out.extend(size);
    out.extend(start);
    out.extend([0, 0]);
    out
}

/// The sum of check of an archive (CRC-32 of ISO 3309).
fn crc32(bytes: &[u8]) -> u32 {
    let step = |sum: u32| if sum & 1 == 1 { (sum >> 1) ^ 0xedb8_8320 } else { sum >> 1 };
    !bytes.iter().fold(u32::MAX, |sum, byte| (0..8).fold(sum ^ u32::from(*byte), |sum, _| step(sum)))
}

fn read(sheets: impl FnOnce(FileId, &mut Vec<Problem>) -> Vec<Sheet>) {
    let mut sources = Sources::new();
    let file = sources.add("survey", "");
    let mut problems = Vec::new();
    let sheets = sheets(file, &mut problems);
    let read = latchline_survey::read(&sheets, problems);
    tell(&read.problems);
    assert!(read.survey.is_some() || !read.problems.is_empty(), "a survey that cannot be used is told why");
    let Some(draft) = read.draft else { return };
    let (name, text) = builtin_catalogue();
    let files = [sources.add(name, text)];
    let catalogues = LoadedCatalogues::with_prices(&sources, &files, draft.prices.clone());
    let is_usable = catalogues.checked().iter().all(|finding| finding.severity < Severity::Error);
    let unknown = unknown_parts(&draft, catalogues.catalogue());
    tell(&unknown);
    let is_harmless = is_usable && unknown.iter().all(Problem::is_harmless);
    let Some(survey) = read.survey.filter(|_| is_harmless) else { return };
    if survey.dwellings.len() > MOST_DESIGNED {
        return;
    }
    let texts = Texts { sources: &sources, catalogues: &catalogues, language: Language::English };
    let effort =
        Effort { orders: 1, most_orders: 1, most_plans: 1, takes_first: true, prices_limits: false, seed: 0 };
    let family = survey.settings.family.as_ref().map_or("ostrel-48", |family| &family.value);
    if let Err(obstacle) = design(&survey, family, texts, effort, &mut |_, _, _| false) {
        for language in LANGUAGES {
            obstacle.say(language);
        }
    }
}

fn tell(problems: &[Problem]) {
    for problem in problems {
        for language in LANGUAGES {
            wording(&problem.finding(), language);
        }
    }
}
