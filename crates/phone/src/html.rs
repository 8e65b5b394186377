//! The page as one file: its style, its scripts and the job in it, and nothing from elsewhere.
//!
//! The modules import each other as they lie in the folder, so that they can be checked and read there; in the file they
//! stand one after another as one module, without the lines that import. A policy in the file names the hash of
//! style and script (Content Security Policy Level 3, W3C): nothing else runs, and nothing is fetched.

use crate::plan::WorkPlan;
use latchline_finding::Language;
use latchline_words::phone::PhoneShell;
use sha2::{Digest, Sha256};

/// The modules, each before those that import it.
const MODULES: &[(&str, &str)] = &[
    ("data.js", include_str!("page/data.js")),
    ("elements.js", include_str!("page/elements.js")),
    ("number.js", include_str!("page/number.js")),
    ("events.js", include_str!("page/events.js")),
    ("keep.js", include_str!("page/keep.js")),
    ("state.js", include_str!("page/state.js")),
    ("picture.js", include_str!("page/picture.js")),
    ("reconcile.js", include_str!("page/reconcile.js")),
    ("device.js", include_str!("page/device.js")),
    ("faults.js", include_str!("page/faults.js")),
    ("step.js", include_str!("page/step.js")),
    ("fault.js", include_str!("page/fault.js")),
    ("more.js", include_str!("page/more.js")),
    ("page.js", include_str!("page/page.js")),
];
const STYLE: &str = include_str!("page/page.css");

/// The page of a job, and its policy for a server to send beside it.
pub fn html(plan: &WorkPlan) -> Result<String, serde_json::Error> {
    let script = script();
    let data = serde_json::to_string(plan)?;
    // Within a script element only `<` can end it or begin a comment.
    let data = data.replace('<', "\\u003c");
    let policy = policy();
    let (language, title) = (plan.language, html_text(&plan.site));
    let spoken = if language == "de" { Language::German } else { Language::English };
    let faults = match plan.fault_table.as_str() {
        "" => String::new(),
        table => format!("<script type=\"text/plain\" id=\"faults\">{table}</script>\n"),
    };
    let (no_script, wait) = (PhoneShell::NeedsScript.say(spoken), PhoneShell::Opening.say(spoken));
    Ok(format!(
        "<!doctype html>\n<html lang=\"{language}\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"generator\" content=\"latchline phone\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1, viewport-fit=cover\">\n\
         <meta name=\"referrer\" content=\"no-referrer\">\n<title>{title}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n\
         <p>{wait}</p>\n<noscript>{no_script}</noscript>\n<script type=\"application/json\" id=\"plan\">{data}</script>\n\
         {faults}<script type=\"module\">{script}</script>\n</body>\n</html>\n"
    ))
}

/// What the page may do: run its own style and script, which these hashes name, and nothing else.
pub fn policy() -> String {
    format!(
        "default-src 'none'; script-src 'sha256-{}'; style-src 'sha256-{}'; img-src data:; base-uri 'none'; form-action 'none'",
        hash(&script()),
        hash(STYLE)
    )
}

/// All modules as one.
fn script() -> String {
    let mut all = String::new();
    for (_, text) in MODULES {
        for line in text.lines().filter(|line| !line.starts_with("import ")) {
            all.push_str(line.strip_prefix("export ").unwrap_or(line));
            all.push('\n');
        }
    }
    all
}

fn html_text(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

/// SHA-256 in base64 (RFC 4648, section 4).
fn hash(text: &str) -> String {
    base64(&Sha256::digest(text.as_bytes()))
}

/// In base64 (RFC 4648, section 4).
pub(crate) fn base64(bytes: &[u8]) -> String {
    const SIGNS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut out = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for three in bytes.chunks(3) {
        let bits =
            three.iter().fold(0_u32, |bits, byte| bits << 8 | u32::from(*byte)) << (8 * (3 - three.len()));
        for place in 0..4 {
            let sign = SIGNS[(bits >> (18 - 6 * place) & 63) as usize];
            out.push(if place <= three.len() { char::from(sign) } else { '=' });
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use latchline_words::phone::PhoneWord;

    /// W3C Content Security Policy Level 2, section 7.17.1, an example: the hash of `alert('Hello, world.');`.
    #[test]
    fn the_hash_is_that_of_the_standard() {
        assert_eq!(hash("alert('Hello, world.');"), "qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng=");
    }

    /// A module stands before those that import it, and no two declare the same name.
    #[test]
    fn the_modules_stand_in_order_and_share_no_name() {
        let mut names = std::collections::BTreeSet::new();
        for (place, (name, text)) in MODULES.iter().enumerate() {
            for line in text.lines().filter(|line| line.starts_with("import ")) {
                let from = line.rsplit("\"./").next().unwrap_or_default().trim_end_matches("\";");
                assert!(MODULES[..place].iter().any(|(known, _)| *known == from), "{name}: {line}");
                assert!(line.ends_with(';'), "{name}: an import stands on one line: {line}");
            }
            for line in text.lines() {
                let line = line.strip_prefix("export ").unwrap_or(line);
                let line = line.strip_prefix("async ").unwrap_or(line);
                let Some(rest) =
                    ["const ", "let ", "function ", "class "].iter().find_map(|kind| line.strip_prefix(kind))
                else {
                    continue;
                };
                let end = rest
                    .find(|sign: char| !sign.is_ascii_alphanumeric() && sign != '_')
                    .unwrap_or(rest.len());
                assert!(names.insert(rest[..end].to_string()), "{name} declares {} again", &rest[..end]);
            }
            assert!(!text.contains("</script") && !text.contains("<!--"), "{name}");
        }
    }

    /// Every message that the page names is there, and every one that is there is named.
    #[test]
    fn every_message_is_used_and_known() {
        let script = script();
        for word in PhoneWord::ALL {
            let name = word.name();
            let quoted = script.contains(&format!("\"{name}\""));
            let dashed = ["Wrong", "File", "Class", "Stand"].iter().any(|head| {
                name.strip_prefix(head).is_some_and(|_| script.contains(&format!("`{head}-${{")))
            });
            assert!(quoted || dashed, "{name} is never said");
        }
        for part in script.split("say(\"").skip(1) {
            let name = part.split('"').next().unwrap_or_default();
            assert!(PhoneWord::ALL.iter().any(|word| word.name() == name), "the page says {name}");
        }
    }
}
