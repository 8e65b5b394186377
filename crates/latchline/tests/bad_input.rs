//! Input that is none: a clear message each, exit status 2, and never a panic.
#![allow(clippy::disallowed_methods, reason = "tests may read and write files")]

use crate::common::{Folder, Ran};
use std::time::{Duration, Instant};

/// Checks a text that cannot be used and gives everything that was said.
fn refused(name: &str, text: impl AsRef<[u8]>) -> String {
    let folder = Folder::new();
    folder.write("site.toml", text);
    refused_file(name, &folder, "site.toml")
}

fn refused_file(name: &str, folder: &Folder, file: &str) -> String {
    let begin = Instant::now();
    let Ran { status, out, err } = folder.run(&["check", file]);
    let said = format!("{out}{err}");
    assert_eq!(status, 2, "{name}: {said}");
    assert!(!said.contains("panicked"), "{name}: {said}");
    assert!(!said.trim().is_empty(), "{name} is told");
    assert!(begin.elapsed() < Duration::from_secs(20), "{name} takes {:?}", begin.elapsed());
    said
}

/// The starter site with one text replaced.
fn starter_with(from: &str, to: &str) -> String {
    let folder = Folder::with_starter();
    folder.edit("site.toml", from, to);
    folder.read("site.toml")
}

#[test]
fn a_missing_file() {
    assert!(refused_file("missing", &Folder::new(), "none.toml").contains("there is no such file"));
}

#[test]
fn a_directory_instead_of_a_file() {
    assert!(refused_file("directory", &Folder::new(), ".").contains("it is a directory"));
}

#[test]
fn an_empty_file() {
    assert!(refused("empty", "").contains("site"));
}

#[test]
fn every_text_empty_blank_or_of_another_kind() {
    let text = starter_with("title", "title");
    let mut seen = std::collections::BTreeSet::new();
    let mut changed = 0;
    for (number, line) in text.lines().enumerate() {
        let Some((key, value)) = line.split_once(" = ").filter(|_| !line.trim_start().starts_with('#'))
        else {
            continue;
        };
        if !value.starts_with('"') || !seen.insert(key.to_string()) {
            continue;
        }
        for other in ["\"\"", "\" \"", "\"\\u200b\"", "\"x\"", "[]", "{}", "1", "true"] {
            let other = format!("{key} = {other}");
            let lines = text.lines().enumerate().map(|(at, line)| if at == number { &*other } else { line });
            let folder = Folder::new();
            folder.write("site.toml", lines.collect::<Vec<_>>().join("\n"));
            let ran = folder.run(&["check", "site.toml", "--format", "short"]);
            assert!((0..=2).contains(&ran.status) && !ran.err.contains("panicked"), "{other}: {}", ran.err);
            changed += 1;
        }
    }
    assert!(changed > 40, "{changed}");
    let said = refused("no family", starter_with("family = \"ostrel-48\"", "family = \"\""));
    assert!(said.contains("family") && said.contains("ostrel-48"), "{said}");
}

#[test]
fn a_truncated_file() {
    let text = starter_with("title", "title");
    let mut cuts = 0;
    for end in (1..text.len()).step_by(97).filter(|end| text.is_char_boundary(*end)) {
        let folder = Folder::new();
        folder.write("site.toml", &text[..end]);
        let ran = folder.run(&["check", "site.toml", "--format", "short"]);
        assert!((0..=2).contains(&ran.status) && !ran.err.contains("panicked"), "cut at {end}: {}", ran.err);
        cuts += 1;
    }
    assert!(cuts > 20);
}

#[test]
fn a_binary_file() {
    let bytes: Vec<u8> = (0..=255_u8).cycle().take(5000).collect();
    assert!(refused("binary", bytes).contains("not UTF-8 text: byte 129"));
    assert!(refused("zeros", vec![0; 5000]).contains("error"));
}

#[test]
fn utf16_and_broken_utf8() {
    assert!(refused("utf-16", b"\xff\xfe[\0s\0").contains("UTF-16"));
    let said = refused("latin-1", b"[site]\ntitle = \"Stra\xdfe\"\n");
    assert!(said.contains("byte 21 (line 2) is 0xdf") && said.contains("save it as UTF-8"), "{said}");
}

#[test]
fn a_byte_order_mark_and_windows_line_ends_are_fine() {
    let folder = Folder::with_starter();
    let text = format!("\u{feff}{}", folder.read("site.toml").replace('\n', "\r\n"));
    folder.write("site.toml", text);
    let ran = folder.run(&["check", "site.toml"]);
    assert_eq!(ran.status, 0, "{}{}", ran.out, ran.err);
}

#[test]
fn a_huge_file() {
    let folder = Folder::new();
    folder.write("large.toml", "# comment\n".repeat(1_000_000));
    assert!(refused_file("10 MB", &folder, "large.toml").contains("file-too-large"));
    let sparse = std::fs::File::create(folder.path("huge.toml")).unwrap();
    sparse.set_len(100_000_001).unwrap();
    assert!(refused_file("over 100 MB", &folder, "huge.toml").contains("more than 100 MB"));
    #[cfg(unix)]
    assert!(refused_file("endless", &folder, "/dev/zero").contains("more than 100 MB"));
}

#[test]
fn deep_nesting() {
    for deep in [200, 20_000, 500_000] {
        refused("arrays", format!("a = {}", "[".repeat(deep)));
        refused("closed arrays", format!("a = {}{}", "[".repeat(deep), "]".repeat(deep)));
        refused("tables", format!("a = {}", "{ a = ".repeat(deep)));
        refused("dotted keys", format!("{}a = 1", "a.".repeat(deep)));
    }
}

#[test]
fn thousands_of_mistakes_end_in_a_count() {
    let lines: String = (0..20_000).map(|number| format!("key{number} = {number}\n")).collect();
    let said = refused("many mistakes", format!("[site]\n{lines}"));
    assert!(said.contains("too-many-findings"), "{}", &said[said.len().saturating_sub(600)..]);
}

#[test]
fn rings_dual_feeds_and_self_feeding() {
    let said =
        refused("dual feed", starter_with("[\"A-1\", \"A-2\", \"A-3\"]", "[\"A-1\", \"A-2\", \"A-4\"]"));
    assert!(said.contains("fed-twice"), "{said}");
    let said = refused("ring", starter_with("\"A-3\"], first", "\"A-3\", \"D1.4\"], first"));
    assert!(said.contains("run-ends-at-port"), "{said}");
    let said = refused("self-feeding", starter_with("feed = { from = \"PS\"", "feed = { from = \"D1.4\""));
    assert!(said.contains("wiring-loop"), "{said}");
}

#[test]
fn names_and_ports_used_twice() {
    let said = refused("duplicate key", starter_with("A-2 = {", "A-1 = {"));
    assert!(said.contains("duplicate-key"), "{said}");
    let said = refused("duplicate name", starter_with("A-2 = {", "D1 = {"));
    assert!(said.contains("duplicate-name"), "{said}");
    let said = refused("port twice", starter_with("from = \"D1.2\"", "from = \"D1.1\""));
    assert!(said.contains("port-used-twice"), "{said}");
}

#[test]
fn absurd_lengths() {
    for length in [
        "\"-8 m\"",
        "\"0 m\"",
        "\"nan m\"",
        "\"inf m\"",
        "\"1e999 m\"",
        "\"9e9 km\"",
        "\"8\"",
        "8",
        "nan",
        "\"8 V\"",
    ] {
        let said = refused(length, starter_with("first = \"8 m\"", &format!("first = {length}")));
        assert!(said.contains("first"), "{length}: {said}");
        assert!(said.contains("site.toml:50:"), "{length}: {said}");
    }
}

#[test]
fn unknown_families_and_parts() {
    let said = refused("family", starter_with("\"ostrel-48\"", "\"ostrl-48\""));
    assert!(said.contains("did you mean ostrel-48"), "{said}");
    let said = refused("cable", starter_with("\"flex-1.5\"", "\"flex-1,5\""));
    assert!(said.contains("flex-1.5"), "{said}");
}

#[test]
fn names_cannot_drive_the_terminal() {
    let said = refused("escape", "[site]\n\"a\\u001b[31m\" = 1\n");
    assert!(!said.contains('\u{1b}'), "{said}");
}

#[test]
#[cfg(unix)]
fn an_unreadable_file() {
    use std::os::unix::fs::PermissionsExt;
    let folder = Folder::with_starter();
    std::fs::set_permissions(folder.path("site.toml"), std::fs::Permissions::from_mode(0o000)).unwrap();
    // Root reads everything; then there is nothing to refuse.
    if std::fs::File::open(folder.path("site.toml")).is_err() {
        assert!(refused_file("unreadable", &folder, "site.toml").contains("no permission"));
    } else {
        assert_eq!(folder.run(&["check", "site.toml"]).status, 0);
    }
}

#[test]
fn other_commands_refuse_the_same() {
    let folder = Folder::new();
    folder.write("empty.toml", "");
    for arguments in [
        &["addresses", "empty.toml"][..],
        &["addresses", "none.toml"],
        &["addresses", "empty.toml", "--freeze"],
        &["accept", "empty.toml", "thin-margin", "--reason", "x"],
        &["accept", "none.toml", "thin-margin", "--reason", "x"],
        &["flow", "empty.toml"],
        &["response", "none.json"],
        &["explain", "no-such-code"],
        &["man", "no-such-command"],
        &["schema", "house"],
        &["completions", "sh"],
        &["chek"],
    ] {
        let ran = folder.run(arguments);
        assert_eq!(ran.status, 2, "{arguments:?}: {}{}", ran.out, ran.err);
        assert_eq!(ran.out, "", "{arguments:?}: results only on standard output");
        assert!(ran.err.contains("error"), "{arguments:?}: {}", ran.err);
        assert!(!ran.err.contains("panicked"), "{arguments:?}: {}", ran.err);
    }
    assert_eq!(folder.read("empty.toml"), "", "nothing is written into what cannot be used");
}

/// Who names the wrong file is told what it is and which command takes it.
#[test]
fn a_file_of_another_kind_is_recognised() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    let said = |arguments: &[&str], name: &str, bytes: &[u8]| {
        std::fs::write(at(name), bytes).unwrap();
        let mut command = std::process::Command::new(env!("CARGO_BIN_EXE_latchline"));
        let output = command.args(arguments).arg(at(name)).output().unwrap();
        assert_eq!(output.status.code(), Some(2), "{arguments:?} {name}");
        String::from_utf8(output.stderr).unwrap()
    };
    let workbook = said(&["check"], "survey.xlsx", b"PK\x03\x04");
    assert!(workbook.contains("no site file: it is a workbook; if it is a survey"), "{workbook}");
    let catalogue = said(&["check"], "parts.toml", b"[cables.old-bell]\n");
    assert!(catalogue.contains("it is a catalogue; list its parts with: latchline catalogue"), "{catalogue}");
    assert!(said(&["check"], "a.svg", b"<svg/>").contains("it is a drawing; name the site file"));
    let site = said(&["design"], "site.toml", b"[site]\n");
    assert!(site.contains("no survey: it is a site file; check it with: latchline check"), "{site}");
    assert!(said(&["design"], "empty.xlsx", b"").contains("no survey: it is empty"));
    let family = said(&["reach", "ostrel-48", "--supply", "larkfen-ps-40", "--chart"], "a.svg", b"");
    assert!(family.contains("larkfen-ps-40 is of the family larkfen-24"), "{family}");
    let decimal = said(&["reach", "ostrel-48", "--spacing", "6,5", "--chart"], "b.svg", b"");
    assert!(decimal.contains("a decimal takes a point: 6.5"), "{decimal}");
    let unit = said(&["reach", "ostrel-48", "--spacing", "six", "--chart"], "c.svg", b"");
    assert!(unit.contains("\"six\" is no length in metres"), "{unit}");
}
