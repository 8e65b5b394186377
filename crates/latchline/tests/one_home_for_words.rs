//! What people read is said in rows of `words`, where English and German stand side by side: no other crate holds a sentence.
//!
//! A sentence is a text in quotes with two or more of the commonest function words of English. What is compiled for tests alone,
//! comments, attributes other than the message of an error and what only a developer meets (`expect`, `panic!`, `assert!` and the like) do not count.
#![allow(clippy::disallowed_methods, clippy::unwrap_used, reason = "tests may read files, and fail")]

use crate::common::repository_file;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// The commonest function words of English that are no keys of any file here.
const FUNCTION_WORDS: &[&str] = &[
    "a", "an", "and", "are", "as", "be", "been", "but", "by", "can", "cannot", "could", "does", "each",
    "for", "has", "have", "how", "if", "in", "into", "is", "it", "its", "may", "must", "no", "not", "of",
    "on", "or", "should", "than", "that", "the", "them", "there", "these", "they", "this", "those", "to",
    "was", "were", "what", "where", "which", "while", "who", "will", "with", "without", "would",
];

/// Files, or folders, that hold sentences all the same, each with its reason.
const EXCEPTIONS: &[(&str, &str)] = &[
    ("crates/circuit/src", "pure numerics, which knows no words: what it refuses no user can bring about"),
    ("crates/site/src/catalogue", "what a key means: the schema, a file format in English, says it"),
    ("crates/site/src/model", "what a key means: the schema, a file format in English, says it"),
    (
        "crates/site/src/keys",
        "the reference of keys, a page in English; mistakes of a quantity get a row by their kind",
    ),
    ("crates/site/src/parse/mistake.rs", "what the TOML library says, looked for to say it in a row"),
    ("crates/site/src/parse/pieces.rs", "a message of the TOML reader, looked for to say it in a row"),
    ("crates/site/src/parse/reader/meant.rs", "words that people write for those of a site file"),
    (
        "crates/store/src",
        "statements of SQL, and why two changes clash, which is kept with the answer and shown on no page",
    ),
    ("crates/pack/src/contents.rs", "lines of contents.txt, which the program reads back"),
    ("crates/cutting/src/stock/problem.rs", "faults of a cutting problem, which no file can bring about"),
    (
        "crates/network/src/tolerance/engine.rs",
        "faults of a sampling, of which the one that a user can bring about has a row",
    ),
    (
        "crates/locate/src/dictionary",
        "what is wrong with the bytes of a table that only programs write and read",
    ),
    ("crates/latchline/src/plain_line.rs", "faults of a file for programs, in the words of its keys"),
    ("crates/latchline/src/plain_network.rs", "faults of a file for programs, in the words of its keys"),
    ("crates/latchline/src/usage.rs", "what the reader of the arguments says, looked for to say it in a row"),
    ("crates/typeset/src/pdf/metadata.rs", "metadata of a PDF: elements of XML"),
];

/// Keys of files that read like a sentence.
const KEYS: &[&str] = &["In a dwelling"];

/// Names of macros and methods whose text only a developer meets.
const FOR_DEVELOPERS: &[&str] =
    &["expect(", "expect_err(", "panic!(", "assert!(", "assert_eq!(", "unreachable!("];

/// The texts in quotes of a source, with their lines: without comments, attributes, what a developer alone meets, and what is compiled for
/// tests alone, which stands at the end.
fn texts(source: &str) -> Vec<(usize, String)> {
    let source = source.find("#[cfg(test)]\nmod ").map_or(source, |at| &source[..at]);
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(first) = source[at..].chars().next() {
        let rest = &source[at..];
        let before = &source[..at];
        let after_word = before.chars().next_back().is_some_and(|sign| sign.is_alphanumeric() || sign == '_');
        at += if rest.starts_with("//") {
            rest.find('\n').unwrap_or(rest.len())
        } else if (rest.starts_with("#[") && !rest.starts_with("#[error(")) || rest.starts_with("#![") {
            rest.find("]\n").map_or(2, |end| end + 1)
        } else if !after_word && (rest.starts_with("r\"") || rest.starts_with("r#\"")) {
            let hashes = rest[1..].chars().take_while(|sign| *sign == '#').count();
            let (begin, end) = (2 + hashes, format!("\"{}", "#".repeat(hashes)));
            let length = rest[begin..].find(&end).unwrap_or(rest.len() - begin);
            found.push((line_of(source, at), rest[begin..begin + length].to_string()));
            (begin + length + end.len()).min(rest.len())
        } else if first == '"' {
            let length = end_of_text(&rest[1..]);
            let statement = before.rfind([';', '{', '}']).map_or(before, |from| &before[from..]);
            if !FOR_DEVELOPERS.iter().any(|name| statement.contains(name)) {
                found.push((line_of(source, at), rest[1..1 + length].to_string()));
            }
            (length + 2).min(rest.len())
        } else if rest.starts_with("'\"'") || rest.starts_with("'\\''") || rest.starts_with("'\\\\'") {
            rest[1..].find('\'').map_or(1, |end| if rest.starts_with("'\\'") { 4 } else { end + 2 })
        } else {
            first.len_utf8()
        };
    }
    found
}

/// How far a text in quotes reaches, behind its first quote.
fn end_of_text(rest: &str) -> usize {
    let mut is_escaped = false;
    for (at, sign) in rest.char_indices() {
        match sign {
            '"' if !is_escaped => return at,
            '\\' => is_escaped = !is_escaped,
            _ => is_escaped = false,
        }
    }
    rest.len()
}

fn line_of(source: &str, at: usize) -> usize {
    source[..at].matches('\n').count() + 1
}

/// Whether a text is a sentence: two different function words at least, in words that blanks stand between. Arguments in braces are none.
fn is_sentence(text: &str) -> bool {
    let mut bare = String::new();
    let mut depth = 0_usize;
    for sign in text.replace("\\n", " ").replace("\\\"", " ").chars() {
        match sign {
            '{' => depth += 1,
            '}' => depth = depth.saturating_sub(1),
            sign if depth == 0 => bare.push(sign),
            _ => {}
        }
    }
    // What has an equals sign is a line of a file, not prose.
    let lines = bare.lines().filter(|line| !line.contains('='));
    let words: BTreeSet<String> = lines
        .flat_map(str::split_whitespace)
        .map(|word| word.trim_matches(|sign: char| !sign.is_alphanumeric()).to_lowercase())
        .collect();
    !KEYS.contains(&text) && FUNCTION_WORDS.iter().filter(|word| words.contains(**word)).count() >= 2
}

/// Every source of a folder, deepest last.
fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut entries: Vec<PathBuf> =
        std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    entries.sort();
    for entry in entries {
        if entry.is_dir() {
            if !entry.ends_with("tests") {
                found.extend(sources(&entry));
            }
        } else if entry.extension().is_some_and(|ending| ending == "rs") && !entry.ends_with("tests.rs") {
            found.push(entry);
        }
    }
    found
}

/// The texts in quotes of every crate but `words`: file, line, text.
fn all_texts() -> Vec<(String, usize, String)> {
    let root = repository_file("");
    let mut found = Vec::new();
    for entry in std::fs::read_dir(repository_file("crates")).unwrap() {
        let folder = entry.unwrap().path();
        if folder.ends_with("words") {
            continue;
        }
        for file in sources(&folder.join("src")) {
            let name = file.strip_prefix(&root).unwrap().to_string_lossy().into_owned();
            let source = std::fs::read_to_string(&file).unwrap();
            found.extend(texts(&source).into_iter().map(|(line, text)| (name.clone(), line, text)));
        }
    }
    found.sort();
    found
}

#[test]
fn no_sentence_stands_outside_the_rows() {
    let all: Vec<_> = all_texts().into_iter().filter(|(.., text)| is_sentence(text)).collect();
    let excepted = |file: &str| EXCEPTIONS.iter().position(|(path, _)| file.starts_with(path));
    let left: Vec<String> = all
        .iter()
        .filter(|(file, ..)| excepted(file).is_none())
        .map(|(file, line, text)| format!("{file}:{line}: {text}"))
        .collect();
    assert!(left.is_empty(), "sentences that belong into a row of words:\n{}", left.join("\n"));
    // An exception that nothing needs any more goes.
    let needed: BTreeSet<usize> = all.iter().filter_map(|(file, ..)| excepted(file)).collect();
    let idle: Vec<&str> =
        (0..EXCEPTIONS.len()).filter(|at| !needed.contains(at)).map(|at| EXCEPTIONS[at].0).collect();
    assert!(idle.is_empty(), "exceptions without a sentence: {idle:?}");
}

#[test]
fn a_planted_sentence_is_found() {
    let planted = "/// The name of the thing.\nfn said() -> String {\n    // It is not told to the reader.\n    \
                   let quote = '\"';\n    format!(\"the run {run} is not fed by any supply\")\n}\n\
                   #[cfg(test)]\nmod tests {\n    const MORE: &str = \"this is the text of a test\";\n}\n";
    let found: Vec<(usize, String)> =
        texts(planted).into_iter().filter(|(_, text)| is_sentence(text)).collect();
    assert_eq!(found, [(5, String::from("the run {run} is not fed by any supply"))]);
    for text in ["from = {from}, to = {to}", "at, to, quantity", "two-pairs-to-the-lock", "A", "the"] {
        assert!(!is_sentence(text), "{text}");
    }
    assert!(texts("let a = x.expect(\"it is in the list\");").is_empty());
}

/// Where a code is declared.
const DECLARED: &[&str] =
    &["crates/assess/src/rules/", "crates/site/src/codes.rs", "crates/survey/src/codes.rs"];

/// A code is written where it is declared, and in the rows of `words`. Whoever looks for its findings takes the constant, so that a
/// renamed rule does not compile, or a prefix of several would lose it.
#[test]
fn codes_are_constants() {
    let codes: BTreeSet<String> = std::fs::read_dir(repository_file("crates/words/src/codes"))
        .unwrap()
        .map(|entry| entry.unwrap().path().file_stem().unwrap().to_string_lossy().replace('_', "-"))
        .collect();
    assert!(codes.len() > 150 && codes.contains("thin-margin"));
    let names = |text: &str| {
        codes.contains(text)
            || text.ends_with('-') && codes.iter().any(|code| code.starts_with(text) && text.len() > 1)
    };
    assert!(names("thin-margin") && names("signal-") && !names("signal") && !names("-"));
    let left: Vec<String> = all_texts()
        .into_iter()
        .filter(|(file, _, text)| !DECLARED.iter().any(|path| file.starts_with(path)) && names(text))
        .map(|(file, line, text)| format!("{file}:{line}: {text}"))
        .collect();
    assert!(left.is_empty(), "codes written as text:\n{}", left.join("\n"));
}
