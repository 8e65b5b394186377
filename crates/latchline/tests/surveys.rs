//! Surveys and catalogues with mistakes: told all at once, each at its place, in every form.
#![allow(clippy::disallowed_methods, reason = "tests may read and write files")]

use crate::common::Folder;

/// A folder with a survey of two dwellings; `dwellings` is the sheet with the mistakes.
fn survey(dwellings: &str) -> Folder {
    let folder = Folder::new();
    std::fs::create_dir(folder.path("survey")).expect("a folder");
    folder.write("survey/places.csv", "Place,Mains,Boxes\nhall,yes,yes\nlanding,no,yes\n");
    folder.write("survey/routes.csv", "From,To,Length\nhall,landing,3.5\n");
    folder.write("survey/dwellings.csv", dwellings);
    folder.write("survey/entrances.csv", "Entrance,Place,Drop,Role\nfront,hall,4,main\n");
    folder
}

const WRONG: &str = "Dwelling,Place,Drop\nA1,hal,2\nA2,landing,lots\n";

#[test]
fn mistakes_in_a_survey_are_told_with_their_cells() {
    let folder = survey(WRONG);
    let told = folder.run(&["design", "survey"]);
    assert_eq!((told.status, told.out.as_str()), (2, ""));
    for wanted in [
        "survey: cannot be used, nothing was judged (2 errors).",
        "error[unknown-name]: there is no place named \"hal\"",
        "at: survey: dwellings!B2",
        "did you mean hall?",
        "error[cell-not-understood]: Drop: \"lots\" is not a length in metres",
        "at: survey: dwellings!C3",
    ] {
        assert!(told.err.contains(wanted), "{wanted}\n---\n{}", told.err);
    }
    let page = folder.run(&["explain", "cell-not-understood"]);
    assert!(page.out.contains("12 kg"), "{}", page.out);
}

/// What is wrong in a cell is told with what can stand there, and German words of yes and no are read as the German comma is.
#[test]
fn cells_of_a_survey_are_told_what_to_write() {
    let folder = survey("Dwelling,Place,Drop\nA1,p3,four\nA2,p2,\"2,5\"\n");
    folder.write("survey/places.csv", "Place,Mains,Boxes\np1,ja,Ja\np2,nein,ja\n");
    folder.write("survey/routes.csv", "From,To,Length,Environment\np1,p2,3.5,underground\n");
    folder.write("survey/entrances.csv", "Entrance,Place,Drop,Role\nfront,p1,4,main\n");
    let told = folder.run(&["design", "survey"]);
    assert_eq!(told.status, 2, "{}", told.out);
    for wanted in [
        "there is no place named \"p3\"",
        "did you mean p1 or p2?",
        "\"four\" is not a length in metres, such as 12.5",
        "did you mean indoors, outdoors or buried?",
        "3 errors",
    ] {
        assert!(told.err.contains(wanted), "{wanted}\n---\n{}", told.err);
    }
}

#[test]
fn mistakes_in_a_survey_are_the_same_as_json_and_sarif() {
    let folder = survey(WRONG);
    let json = folder.run(&["design", "survey", "--format", "json"]);
    assert_eq!((json.status, json.err.as_str()), (2, ""));
    let json: serde_json::Value = serde_json::from_str(&json.out).expect("JSON");
    assert_eq!(json["verdict"], "unusable");
    let first = &json["findings"][0];
    assert_eq!(first["code"], "cell-not-understood");
    assert_eq!(first["origin"]["sheet"], "dwellings");
    assert_eq!((&first["origin"]["line"], &first["origin"]["column"]), (&3.into(), &3.into()));
    let sarif = folder.run(&["design", "survey", "--format", "sarif"]);
    assert_eq!((sarif.status, sarif.err.as_str()), (2, ""));
    let sarif: serde_json::Value = serde_json::from_str(&sarif.out).expect("SARIF is JSON");
    let results = sarif["runs"][0]["results"].as_array().expect("results");
    let places: Vec<_> = results
        .iter()
        .map(|result| {
            let location = &result["locations"][0];
            let region = &location["physicalLocation"]["region"];
            let cell = location["logicalLocations"][0]["name"].as_str().unwrap_or_default();
            (result["ruleId"].as_str().unwrap_or_default(), cell, region["startLine"].as_u64())
        })
        .collect();
    assert_eq!(
        places,
        [("cell-not-understood", "dwellings!C3", Some(3)), ("unknown-name", "dwellings!B2", Some(2))]
    );
    // Of a survey that can be used there is nothing to tell.
    folder.write("survey/dwellings.csv", "Dwelling,Place,Drop\nA1,hall,2\nA2,landing,2\n");
    let clean = folder.run(&["design", "survey", "--format", "sarif"]);
    let sarif: serde_json::Value = serde_json::from_str(&clean.out).expect("SARIF is JSON");
    assert_eq!((clean.status, sarif["runs"][0]["results"].as_array().map(Vec::len)), (0, Some(0)));
}

#[test]
fn every_mistake_in_a_catalogue_is_shown_at_its_line_by_every_command() {
    let folder = survey("Dwelling,Place,Drop\nA1,hall,2\nA2,landing,2\n");
    folder.write("survey/site.csv", "Setting,Value\nCatalogues,own.toml\n");
    let catalogue = "[cables]\nthin = { title = \"Thin\", source = \"mine\", gauge = \"0.3\" }\n\
                     thick = { title = \"Thick\", source = \"mine\", gauge = \"2 mm\", prise = 3 }\n";
    folder.write("own.toml", catalogue);
    folder.write("survey/own.toml", catalogue);
    folder.run(&["new", "site.toml"]);
    let site = folder.read("site.toml");
    folder.write("own-site.toml", site.replacen("[site]", "[site]\ncatalogues = [\"own.toml\"]", 1));
    // The survey itself can be used.
    std::fs::create_dir(folder.path("sound")).expect("a folder");
    for sheet in ["places", "routes", "dwellings", "entrances"] {
        folder.write(&format!("sound/{sheet}.csv"), folder.read(&format!("survey/{sheet}.csv")));
    }
    for arguments in [
        &["catalogue", "--catalogue", "own.toml"][..],
        &["reach", "ostrel-48", "--catalogue", "own.toml"],
        &["design", "survey"],
        &["design", "sound", "--from", "own-site.toml"],
        &["fix", "own-site.toml"],
        &["locate", "own-site.toml", "A-1=33V"],
        &["headroom", "own-site.toml"],
    ] {
        let told = folder.run(arguments);
        assert_eq!((told.status, told.out.as_str()), (2, ""), "{arguments:?}");
        for wanted in
            ["own.toml:2:", "error[unit-missing]", "own.toml:3:", "error[unknown-key]", "did you mean price?"]
        {
            assert!(told.err.contains(wanted), "{arguments:?}: {wanted}\n---\n{}", told.err);
        }
    }
}
