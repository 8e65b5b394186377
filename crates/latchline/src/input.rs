//! Reading text files, with a clear message for everything that is not one.

use anyhow::{Context, Result, anyhow, bail};
use std::fs::File;
use std::io::{ErrorKind, Read};
use std::path::Path;

/// Files larger than this are not read.
const LARGEST_BYTES: u64 = 100_000_000;

/// A text, without byte order mark. `-` reads `input`.
///
/// # Errors
/// If there is no such file, or it is a directory, unreadable, too large, or not UTF-8.
pub fn read_text(path: &Path, input: &mut dyn Read) -> Result<String> {
    if path == Path::new("-") {
        let bytes = limited(input).context("cannot read standard input")?;
        return text(bytes).context("cannot use standard input");
    }
    let name = path.display();
    let bytes = read_file(path).with_context(|| format!("cannot read \"{name}\""))?;
    text(bytes).with_context(|| format!("cannot use \"{name}\""))
}

fn read_file(path: &Path) -> Result<Vec<u8>> {
    let explained = |error: std::io::Error| match error.kind() {
        ErrorKind::NotFound => {
            anyhow!("there is no such file; check the path, or make one with: latchline new")
        }
        ErrorKind::PermissionDenied => anyhow!("no permission to read it"),
        ErrorKind::IsADirectory => directory(),
        _ => error.into(),
    };
    let file = File::open(path).map_err(explained)?;
    if file.metadata().map_err(explained)?.is_dir() {
        return Err(directory());
    }
    limited(&mut { file })
}

fn directory() -> anyhow::Error {
    anyhow!("it is a directory; name the file in it, for example site.toml")
}

fn limited(input: &mut dyn Read) -> Result<Vec<u8>> {
    let mut bytes = Vec::new();
    input.take(LARGEST_BYTES + 1).read_to_end(&mut bytes)?;
    if bytes.len() as u64 > LARGEST_BYTES {
        bail!("it has more than {} MB; check that it is the right file", LARGEST_BYTES / 1_000_000);
    }
    Ok(bytes)
}

fn text(bytes: Vec<u8>) -> Result<String> {
    if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
        bail!("it is UTF-16 text; save it as UTF-8");
    }
    let text = String::from_utf8(bytes).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        let bytes = error.as_bytes();
        let line = bytes[..at].iter().filter(|byte| **byte == b'\n').count() + 1;
        anyhow!(
            "it is not UTF-8 text: byte {} (line {line}) is 0x{:02x}; save it as UTF-8",
            at + 1,
            bytes[at]
        )
    })?;
    Ok(match text.strip_prefix('\u{feff}') {
        Some(rest) => rest.to_string(),
        None => text,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn message(bytes: &[u8]) -> String {
        format!("{:#}", read_text(Path::new("-"), &mut { bytes }).unwrap_err())
    }

    #[test]
    fn a_byte_order_mark_is_accepted() {
        assert_eq!(read_text(Path::new("-"), &mut "\u{feff}a = 1".as_bytes()).unwrap(), "a = 1");
    }

    #[test]
    fn what_is_not_utf8_is_told_with_its_place() {
        assert!(message(b"a = 1\nb = \"\xe4\"").contains("byte 12 (line 2) is 0xe4"));
        assert!(message(b"\xff\xfea\0").contains("UTF-16"));
        assert!(message(b"abc\xf0\x9f").contains("byte 4 (line 1)"));
    }
}
