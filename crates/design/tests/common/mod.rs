//! Surveys for the tests, made as sheets of text.
#![allow(dead_code, reason = "each test file uses its part")]

use latchline_design::{Design, Effort, Obstacle, Texts, design};
use latchline_finding::{FileId, Language, Sources};
use latchline_site::{LoadedCatalogues, builtin_catalogue};
use latchline_survey::table::from_csv;
use latchline_survey::{Read, Survey, read};

/// Reads a survey from CSV texts by sheet name.
pub fn survey(sheets: &[(&str, String)]) -> Read {
    let mut problems = Vec::new();
    let tables: Vec<_> = sheets
        .iter()
        .filter_map(|(name, text)| from_csv(FileId(0), name, text.as_bytes(), &mut problems))
        .collect();
    read(&tables, problems)
}

/// Designs with the built-in catalogue and further ones.
pub fn design_with(survey: &Survey, family: &str, more: &[&str], effort: Effort) -> Result<Design, Obstacle> {
    let mut sources = Sources::new();
    let (name, text) = builtin_catalogue();
    let mut catalogues = vec![sources.add(name, text)];
    for text in more {
        catalogues.push(sources.add("further", *text));
    }
    let catalogues = LoadedCatalogues::with_prices(&sources, &catalogues, survey.prices.clone());
    let probe = sources.add("probe", "[site]\ntitle = \"t\"\nfamily = \"ostrel-48\"\n");
    catalogues.resolve(&sources, probe).site.expect("the catalogues are sound");
    let texts = Texts { sources: &sources, catalogues: &catalogues, language: Language::English };
    design(survey, family, texts, effort, &mut |_, _, _| true)
}

/// Blocks with a riser at the core and a corridor to both sides of every landing.
pub fn corridors(blocks: usize, floors: usize, flats: usize, settings: &str) -> Vec<(&'static str, String)> {
    let letters = ["A", "B", "C", "D", "E", "F", "G", "H"];
    let mut buildings = String::from("Building,Floors\n");
    let mut places = String::from("Place,Building,Floor,Mains,Boxes\n");
    let mut routes = String::from("From,To,Length,Environment\n");
    let mut dwellings = String::from("Dwelling,Place,Drop\n");
    let mut entrances = String::from("Entrance,Place,Drop,Role,Calls,Lock,Lock cable,Lock length\n");
    for (block, letter) in letters.iter().enumerate().take(blocks) {
        let names: Vec<String> = (0..floors).map(|floor| floor.to_string()).collect();
        buildings += &format!("{letter},{}\n", names.join(";"));
        for floor in 0..floors {
            let mains = if floor == 0 { "yes" } else { "no" };
            places += &format!("{letter}-{floor},{letter},{floor},{mains},yes\n");
            if floor > 0 {
                routes += &format!("{letter}-{},{letter}-{floor},3.2,\n", floor - 1);
            }
            let mut number = 0;
            for (side, count) in [("l", flats.div_ceil(2)), ("r", flats / 2)] {
                let mut before = format!("{letter}-{floor}");
                for step in 0..count {
                    let node = format!("{letter}{floor}{side}{step}");
                    places += &format!("{node},{letter},{floor},no,no\n");
                    routes += &format!("{before},{node},{},\n", if step > 0 { 6 } else { 4 });
                    before.clone_from(&node);
                    number += 1;
                    dwellings += &format!("{letter}-{floor}{number:02},{node},1.5\n");
                }
            }
        }
        if block > 0 {
            routes += &format!("{}-0,{letter}-0,35,buried\n", letters[block - 1]);
        }
        entrances += &format!("front-{letter},{letter}-0,8,main,{letter},strike-12,flex-1.0,5\n");
    }
    vec![
        ("site", format!("Setting,Value\nTitle,Corridors\n{settings}")),
        ("buildings", buildings),
        ("places", places),
        ("routes", routes),
        ("dwellings", dwellings),
        ("entrances", entrances),
    ]
}
