//! What the code of a device leads to.

use crate::subject::Subject;
use std::fmt::Write as _;

/// The address of the page of a device, with its number in the device schedule; `None` without one.
pub fn code_data(subject: &Subject<'_>, name: &str, number: usize) -> Option<String> {
    let base = subject.options.base_url.as_ref()?;
    Some(match base.ends_with('=') {
        // The page for the phone takes the number of the device schedule.
        true => format!("{base}{number}"),
        false => format!("{}/{}", base.trim_end_matches('/'), percent_encoded(name)),
    })
}

/// A designation as one segment of a path (RFC 3986: unreserved characters stay).
fn percent_encoded(text: &str) -> String {
    text.bytes().fold(String::new(), |mut out, byte| {
        if byte.is_ascii_alphanumeric() || b"-._~".contains(&byte) {
            out.push(char::from(byte));
        } else {
            let _ = write!(out, "%{byte:02X}");
        }
        out
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 3986, sections 2.1 and 2.3.
    #[test]
    fn designations_become_path_segments() {
        assert_eq!(percent_encoded("A-12:2 ä/?"), "A-12%3A2%20%C3%A4%2F%3F");
    }
}
