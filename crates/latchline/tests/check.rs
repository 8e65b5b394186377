//! `latchline check` as a whole program.
#![allow(clippy::disallowed_methods, reason = "tests may read and write files")]

use crate::common::{Folder, ran};
use std::io::{BufRead, BufReader, Read};
use std::process::Stdio;
use std::time::{Duration, Instant};

#[test]
fn a_good_site_is_clean_and_quiet() {
    let folder = Folder::with_starter();
    let ran = folder.run(&["check", "site.toml"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    assert!(ran.out.starts_with("Starter house: holds"), "{}", ran.out);
    assert!(ran.out.contains("not a certificate"), "{}", ran.out);
    assert!(!ran.out.contains('\u{1b}'), "no colour unless told");
}

#[test]
fn the_twelve_flat_example_of_the_docs_is_clean() {
    let folder = Folder::new();
    let example = crate::common::repository_file("docs/examples/twelve-flats.toml");
    let ran = folder.run(&["check", example.to_str().unwrap()]);
    assert_eq!(ran.status, 0, "{}", ran.out);
}

#[test]
fn a_site_that_fails_shows_the_place_and_gives_status_1() {
    let folder = Folder::with_starter();
    folder.edit("site.toml", "\"7.5 m\"", "\"9000 m\"");
    let ran = folder.run(&["check", "site.toml", "--lines"]);
    assert_eq!(ran.status, 1, "{}{}", ran.out, ran.err);
    assert!(ran.out.starts_with("Starter house: fails"), "{}", ran.out);
    assert!(ran.out.contains("--> site.toml:") && ran.out.contains("^^"), "{}", ran.out);
}

#[test]
fn all_mistakes_are_told_at_once_with_their_places() {
    let folder = Folder::with_starter();
    folder.edit("site.toml", "family = \"ostrel-48\"", "family = \"ostrel-84\"");
    folder.edit("site.toml", "first = \"8 m\"", "first = \"8,0 m\"");
    folder.edit("site.toml", "spacing = \"6 m\"", "spacing = 6");
    folder.edit("site.toml", "door = { from = \"D1.3\"", "door = { form = \"D1.3\"");
    let ran = folder.run(&["check", "site.toml", "--format", "short"]);
    assert_eq!(ran.status, 2);
    for part in ["ostrel-84", "decimal-comma", "unit-missing", "unknown-key"] {
        assert!(ran.out.contains(part), "{part}: {}", ran.out);
    }
    let text = folder.run(&["check", "site.toml"]).out;
    assert!(text.contains("did you mean ostrel-48") && text.contains("did you mean from?"), "{text}");
    for line in ran.out.lines().filter(|line| line.contains("error[")) {
        let number = line.strip_prefix("site.toml:").and_then(|rest| rest.split(':').next());
        assert!(number.is_some_and(|number| number.parse::<u32>().is_ok()), "{line}");
    }
}

#[test]
fn fail_on_decides_what_counts() {
    let folder = Folder::with_starter();
    folder.edit("site.toml", "[conditions]", "[policy]\nthin_margin = \"10 V\"\n\n[conditions]");
    let status = |arguments: &[&str]| folder.run(&[&["check", "site.toml"], arguments].concat()).status;
    assert_eq!(status(&[]), 0, "a thin margin is a warning");
    assert_eq!(status(&["--fail-on", "error"]), 0);
    assert_eq!(status(&["--fail-on", "warning"]), 1);
    assert_eq!(status(&["--fail-on", "advice"]), 1);
    assert_eq!(status(&["--fail-on", "nothing"]), 2, "a wrong argument");
}

#[test]
fn json_follows_its_published_schema_for_good_failing_and_unusable_sites() {
    let folder = Folder::with_starter();
    folder.write("empty.toml", "");
    folder.write("failing.toml", folder.read("site.toml").replace("\"7.5 m\"", "\"9000 m\""));
    let schema: serde_json::Value = serde_json::from_str(
        &std::fs::read_to_string(crate::common::repository_file("docs/schema/check.schema.json")).unwrap(),
    )
    .unwrap();
    let validator = jsonschema::draft202012::new(&schema).unwrap();
    for (file, status, verdict) in
        [("site.toml", 0, "holds"), ("failing.toml", 1, "fails"), ("empty.toml", 2, "unusable")]
    {
        let ran = folder.run(&["check", file, "--format", "json"]);
        assert_eq!(ran.status, status, "{file}: {}", ran.err);
        let document: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
        let errors: Vec<String> = validator.iter_errors(&document).map(|error| error.to_string()).collect();
        assert!(errors.is_empty(), "{file}: {errors:?}");
        assert!(
            document["verdict"].as_str().unwrap().starts_with(verdict),
            "{file}: {}",
            document["verdict"]
        );
        assert!(!ran.out.contains(": null"), "{file}");
    }
}

/// The sheets of every door and supply of the demo and of its failing sibling.
#[test]
fn sheets_as_json_follow_their_published_schemas() {
    let folder = Folder::new();
    assert_eq!(folder.run(&["new", "--demo", "demo"]).status, 0);
    let validator = |which: &str| {
        let path = format!("docs/schema/{which}.schema.json");
        let text = std::fs::read_to_string(crate::common::repository_file(&path)).unwrap();
        jsonschema::draft202012::new(&serde_json::from_str(&text).unwrap()).unwrap()
    };
    let (doors, supplies) = (validator("door"), validator("supply"));
    for site in ["demo/site.toml", "demo/faulty.toml"] {
        for (option, name, validator) in [
            ("--door", "front-A", &doors),
            ("--door", "gate", &doors),
            ("--door", "bins", &doors),
            ("--supply", "A-PS", &supplies),
            ("--supply", "B-PS", &supplies),
        ] {
            let ran = folder.run(&["check", site, option, name, "--format", "json"]);
            let document: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
            let errors: Vec<String> =
                validator.iter_errors(&document).map(|error| error.to_string()).collect();
            assert!(errors.is_empty(), "{site} {name}: {errors:?}");
            assert!(!ran.out.contains(": null"), "{site} {name}");
            assert_eq!(document[option.trim_start_matches('-')], name);
        }
    }
    let bins = folder.run(&["check", "demo/faulty.toml", "--door", "bins", "--format", "json"]).out;
    let bins: serde_json::Value = serde_json::from_str(&bins).unwrap();
    assert_eq!(bins["locks"][0]["circuit"]["holds"], false);
    assert!(bins["findings"].to_string().contains("lock-voltage-too-low"));
    let sarif = folder.run(&["check", "demo/site.toml", "--door", "bins", "--format", "sarif"]);
    assert_eq!(sarif.status, 2);
}

#[test]
fn json_gives_place_and_address_of_things() {
    let folder = Folder::with_starter();
    folder.edit("site.toml", "\"7.5 m\"", "\"9000 m\"");
    let out = folder.run(&["check", "site.toml", "--format", "json"]).out;
    let document: serde_json::Value = serde_json::from_str(&out).unwrap();
    let finding = document["findings"]
        .as_array()
        .unwrap()
        .iter()
        .find(|finding| finding["severity"] == "error")
        .unwrap();
    let line = finding["origin"]["line"].as_u64().unwrap() as usize;
    assert!(line <= folder.read("site.toml").lines().count());
    assert_eq!(document["addresses"]["stations"].as_array().unwrap().len(), 8);
}

#[test]
fn sarif_has_relative_addresses_and_rules_with_help() {
    let folder = Folder::with_starter();
    folder.edit("site.toml", "\"7.5 m\"", "\"9000 m\"");
    let absolute = folder.path("site.toml").canonicalize().unwrap();
    let ran = folder.run(&["check", absolute.to_str().unwrap(), "--format", "sarif"]);
    assert_eq!(ran.status, 1);
    let log: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(log["version"], "2.1.0");
    let run = &log["runs"][0];
    let rules = run["tool"]["driver"]["rules"].as_array().unwrap();
    for result in run["results"].as_array().unwrap() {
        let rule = &rules[result["ruleIndex"].as_u64().unwrap() as usize];
        assert_eq!(rule["id"], result["ruleId"]);
        assert!(rule["help"]["text"].as_str().unwrap().len() > 40);
        if let Some(location) =
            result["locations"].get(0).filter(|place| !place["physicalLocation"].is_null())
        {
            let physical = &location["physicalLocation"];
            assert_eq!(physical["artifactLocation"]["uri"], "site.toml");
            assert!(physical["region"]["startColumn"].as_u64().unwrap() >= 1);
        }
    }
}

#[test]
fn a_result_can_go_to_a_file() {
    let folder = Folder::with_starter();
    let ran = folder.run(&["check", "site.toml", "--format", "json", "--output", "result.json"]);
    assert_eq!((ran.status, ran.out.as_str(), ran.err.as_str()), (0, "", ""));
    assert!(folder.read("result.json").starts_with('{'));
    assert_eq!(folder.names(), ["result.json", "site.toml"], "nothing is left beside it");
    let ran = folder.run(&["check", "site.toml", "--output", "."]);
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("directory"), "{}", ran.err);
}

#[test]
fn the_same_input_gives_the_same_bytes() {
    let folder = Folder::with_starter();
    for format in ["text", "short", "json", "sarif"] {
        let run = || folder.run(&["check", "site.toml", "--format", format]).out;
        assert_eq!(run(), run(), "{format}");
    }
}

#[test]
fn colour_only_when_told() {
    let folder = Folder::with_starter();
    let colour = |arguments: &[&str], variables: &[(&str, &str)]| {
        let mut command = folder.command(&[&["check", "site.toml"], arguments].concat());
        for (name, value) in variables {
            command.env(name, value);
        }
        ran(command.output().unwrap()).out.contains('\u{1b}')
    };
    assert!(!colour(&[], &[]));
    assert!(colour(&["--color", "always"], &[("NO_COLOR", "1")]));
    assert!(!colour(&["--color", "never"], &[("CLICOLOR_FORCE", "1")]));
    assert!(colour(&[], &[("CLICOLOR_FORCE", "1")]));
    assert!(!colour(&[], &[("CLICOLOR_FORCE", "1"), ("NO_COLOR", "1")]));
}

#[test]
fn the_page_is_as_wide_as_the_terminal() {
    let folder = Folder::with_starter();
    for columns in [60, 100] {
        let output =
            folder.command(&["check", "site.toml"]).env("COLUMNS", columns.to_string()).output().unwrap();
        let text = ran(output).out;
        let snippet = |line: &str| line.contains(" | ") || line.contains("-->") || line.contains(":::");
        for line in text.lines().filter(|line| !snippet(line)) {
            assert!(line.chars().count() <= columns, "{columns}: {line}");
        }
    }
}

#[test]
fn a_closed_pipe_is_quiet() {
    let folder = Folder::with_starter();
    let mut child = folder
        .command(&["check", "site.toml", "--format", "json"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let status = child.wait().unwrap();
    let mut err = String::new();
    child.stderr.take().unwrap().read_to_string(&mut err).unwrap();
    assert_eq!(err, "");
    assert_eq!(status.code(), Some(0));
}

#[test]
fn standard_input_is_read_for_a_dash() {
    let folder = Folder::with_starter();
    let ran = folder.run_with_input(&["check", "-"], folder.read("site.toml").as_bytes());
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(ran.out.starts_with("Starter house"));
}

#[test]
fn catalogues_are_found_beside_the_site_file() {
    let folder = Folder::with_starter();
    std::fs::create_dir(folder.path("job")).unwrap();
    std::fs::rename(folder.path("site.toml"), folder.path("job/site.toml")).unwrap();
    folder.edit("job/site.toml", "# catalogues = [\"my-parts.toml\"]", "catalogues = [\"my-parts.toml\"]");
    let ran = folder.run(&["check", "job/site.toml"]);
    assert_eq!(ran.status, 2);
    assert!(ran.out.contains("catalogue-not-read") && ran.out.contains("job/site.toml:"), "{}", ran.out);
    // It is one mistake among others, each at its line, in every form.
    folder.edit("job/site.toml", "[\"my-parts.toml\"]", "[\"my-parts.toml\", \"theirs.toml\"]\nfoo = 1");
    for form in ["text", "short", "json", "sarif"] {
        let ran = folder.run(&["check", "job/site.toml", "--format", form]);
        let told = ["my-parts.toml", "theirs.toml", "unknown-key"].map(|one| ran.out.contains(one));
        assert_eq!((ran.status, told), (2, [true; 3]), "{form}: {}", ran.out);
    }
    folder.edit("job/site.toml", "[\"my-parts.toml\", \"theirs.toml\"]\nfoo = 1", "[\"my-parts.toml\"]");
    folder.write("job/my-parts.toml", "");
    assert_eq!(folder.run(&["check", "job/site.toml"]).status, 0);
    folder.write("job/my-parts.toml", "[stations.x]\n");
    let ran = folder.run(&["check", "job/site.toml", "--format", "short"]);
    assert_eq!(ran.status, 2);
    assert!(ran.out.contains("job/my-parts.toml:1:"), "{}", ran.out);
}

#[test]
fn watching_checks_again_after_a_change_and_survives_a_missing_file() {
    let folder = Folder::with_starter();
    let mut child = folder
        .command(&["check", "site.toml", "--watch", "--format", "short"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let (send, lines) = std::sync::mpsc::channel();
    let out = child.stdout.take().unwrap();
    std::thread::spawn(move || {
        for line in BufReader::new(out).lines().map_while(Result::ok) {
            if send.send(line).is_err() {
                break;
            }
        }
    });
    let wait_for = |wanted: &str| {
        let end = Instant::now() + Duration::from_secs(60);
        while Instant::now() < end {
            match lines.recv_timeout(Duration::from_secs(60)) {
                Ok(line) if line.contains(wanted) => return,
                Ok(line) => assert!(!line.contains('\u{1b}'), "the screen is cleared on a terminal only"),
                Err(_) => break,
            }
        }
        panic!("no line with {wanted}");
    };
    wait_for("site.toml: holds");
    folder.edit("site.toml", "\"7.5 m\"", "\"9000 m\"");
    wait_for("site.toml: fails");
    let text = folder.read("site.toml");
    std::fs::remove_file(folder.path("site.toml")).unwrap();
    std::thread::sleep(Duration::from_millis(700));
    folder.write("site.toml", text.replace("\"9000 m\"", "\"7.5 m\""));
    wait_for("site.toml: holds");
    child.kill().unwrap();
    child.wait().unwrap();
    assert_eq!(folder.run(&["check", "-", "--watch"]).status, 2);
}

/// A door station as the station of twenty dwellings is said once, with all of them, not twenty times.
#[test]
fn a_part_of_the_wrong_kind_is_listed_once() {
    let folder = Folder::with_starter();
    let mut site = folder.read("site.toml");
    let dwellings: String = (1..=20)
        .map(|number| format!("F-{number} = {{ place = \"A/1\", station = \"ostrel-dv1\" }}\n"))
        .collect();
    site = site.replace("\n# Cable paths", &format!("{dwellings}\n# Cable paths"));
    folder.write("site.toml", site);
    let ran = folder.run(&["check", "site.toml"]);
    assert_eq!(ran.status, 2, "{}{}", ran.out, ran.err);
    let told = format!("{}{}", ran.out, ran.err);
    assert_eq!(told.matches("wrong-kind-of-part").count(), 1, "{told}");
    let document = folder.run(&["check", "site.toml", "--format", "json"]).out;
    let document: serde_json::Value = serde_json::from_str(&document).expect("JSON");
    let all = document["findings"].as_array().expect("findings");
    let wrong: Vec<_> = all.iter().filter(|one| one["code"] == "wrong-kind-of-part").collect();
    assert_eq!(wrong.len(), 1, "{all:#?}");
    // Each of them is named in it.
    let text = wrong[0].to_string();
    assert!((1..=20).all(|number| text.contains(&format!("F-{number}\""))), "{text}");
}
