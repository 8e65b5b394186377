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

/// A dwelling keeps the station that was written, or the survey is refused: in every form of output, and in German.
#[test]
fn a_station_of_another_family_is_told_at_its_cell() {
    let folder = survey(
        "Dwelling,Place,Drop,Station\nA1,hall,2,mossop-t1\nA2,landing,2,ostrel-v4\nA3,landing,2,larkfen-v5\n",
    );
    folder.write("survey/site.csv", "Setting,Value\nFamily,ostrel-48\n");
    let told = folder.run(&["design", "survey", "-o", "site.toml"]);
    assert_eq!((told.status, told.out.as_str()), (2, ""), "{}", told.err);
    for wanted in [
        "error[part-of-another-family]: \"mossop-t1\" is of the family mossop-",
        "; the survey is of ostrel-48",
        "at: survey: dwellings!D2",
        "at: survey: dwellings!D4",
        "choose ostrel-",
        "2 errors",
    ] {
        assert!(told.err.contains(wanted), "{wanted}\n---\n{}", told.err);
    }
    for format in ["json", "sarif"] {
        let told = folder.run(&["design", "survey", "--format", format]);
        assert_eq!(told.status, 2, "{}", told.err);
        assert_eq!(told.out.matches("\"part-of-another-family\"").count().min(2), 2, "{}", told.out);
    }
    let german = folder.run(&["design", "survey", "--language", "de"]);
    assert!(german.err.contains("„mossop-t1“ gehört zur Gerätefamilie"), "{}", german.err);
    // Where no family is settled, the first station's is.
    folder.write("survey/site.csv", "Setting,Value\nTitle,Two\n");
    let told = folder.run(&["design", "survey"]);
    assert!(
        told.err.contains("\"ostrel-v4\" is of the family ostrel-48; the survey is of mossop-"),
        "{}",
        told.err
    );
}

/// Where another family is asked for by name, none of its stations takes the place of the one that is written.
#[test]
fn a_family_that_lacks_the_stations_written_has_no_design() {
    let folder = survey("Dwelling,Place,Drop,Station\nA1,hall,2,ostrel-v4\n");
    let told = folder.run(&["design", "survey", "--family", "larkfen-24"]);
    assert_eq!(told.status, 1, "{}{}", told.out, told.err);
    assert!(told.out.contains("\"ostrel-v4\", which is of the family ostrel-48"), "{}", told.out);
}

#[test]
fn cells_beyond_the_headings_are_told() {
    let folder =
        survey("Dwelling;Place;Drop;Station\nA1;hall;2;;999\nA2;landing;2;;;;hello\nA3;landing;2;;888\n");
    folder.write("survey/buildings.csv", "Building;Title;Floors\nH;House;G;1\n");
    folder.write(
        "survey/places.csv",
        "Place,Mains,Boxes,Building,Floor\nhall,yes,yes,H,G\nlanding,no,yes,H,1\n",
    );
    let told = folder.run(&["design", "survey"]);
    for wanted in [
        "warning[cell-without-heading]: \"999\" stands below no heading and is not read",
        "it in 1 further row",
        "at: survey: dwellings!E2",
        "\"hello\" stands below no heading",
        "at: survey: dwellings!G3",
        "at: survey: buildings!D2",
        "\";\" divides cells: where one cell is meant, write \"G;1\"",
    ] {
        assert!(told.err.contains(wanted), "{wanted}\n---\n{}", told.err);
    }
    let german = folder.run(&["design", "survey", "--language", "de"]);
    assert!(german.err.contains("„999“ steht unter keiner Überschrift"), "{}", german.err);
    // In quotes the list is one cell, and nothing is told of it.
    folder.write("survey/buildings.csv", "Building;Title;Floors\nH;House;\"G;1\"\n");
    let told = folder.run(&["design", "survey", "--cheapest"]);
    assert!(told.status == 0 && !told.err.contains("buildings"), "{}", told.err);
}

#[test]
fn a_missing_catalogue_is_told_among_all_other_mistakes() {
    let folder = survey(WRONG);
    folder.write("survey/site.csv", "Setting,Value\nCatalogues,gone.toml\nWiring,spirals\n");
    let told = folder.run(&["design", "survey"]);
    assert_eq!(told.status, 2, "{}", told.err);
    for wanted in [
        "error[catalogue-not-read]: the catalogue \"gone.toml\" cannot be read",
        "at: survey: site!B2",
        "4 errors",
    ] {
        assert!(told.err.contains(wanted), "{wanted}\n---\n{}", told.err);
    }
    for format in ["json", "sarif"] {
        let told = folder.run(&["design", "survey", "--format", format]);
        assert_eq!(told.status, 2, "{}", told.err);
        assert!(told.out.contains("catalogue-not-read") && told.out.contains("unknown-name"), "{}", told.out);
    }
    let german = folder.run(&["design", "survey", "--language", "de"]);
    assert!(german.err.contains("der Katalog „gone.toml“ kann nicht gelesen werden"), "{}", german.err);
}

/// A temperature that nobody stated is no more known once a design is made of the survey: whatever rests on it says so.
#[test]
fn what_a_survey_does_not_state_a_design_does_not_state_either() {
    let keys = ["usual_temperature", "hottest_temperature", "coldest_temperature", "length_tolerance"];
    let folder = survey("Dwelling,Place,Drop\n1,hall,2\n2,hall,3\n");
    let made = |name: &str| {
        let ran = folder.run(&["design", "survey", "-o", name, "--cheapest"]);
        assert_eq!(ran.status, 0, "{}{}", ran.out, ran.err);
        let checked = folder.run(&["check", name, "--format", "json"]);
        let document: serde_json::Value = serde_json::from_str(&checked.out).unwrap();
        (std::fs::read_to_string(folder.path(name)).unwrap(), document["assumed"].to_string())
    };
    folder.write("survey/site.csv", "Setting,Value\nTitle,House\n");
    let (text, assumed) = made("unstated.toml");
    for key in keys {
        assert!(!text.contains(key), "{text}");
    }
    assert!(assumed.contains("hottest_temperature"), "{assumed}");
    folder.write(
        "survey/site.csv",
        "Setting,Value\nTitle,House\nUsual temperature,18\nHottest temperature,35\nColdest temperature,-5\nLength tolerance,3\n",
    );
    let (text, assumed) = made("stated.toml");
    for (key, value) in keys.iter().zip(["18 °C", "35 °C", "-5 °C", "3 %"]) {
        assert!(text.contains(&format!("{key} = \"{value}\"")), "{text}");
        assert!(!assumed.contains(key), "{assumed}");
    }
}
