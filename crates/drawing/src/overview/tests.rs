//! What the overview of the demo shows.

use super::*;
use latchline_finding::Sources;

fn demo() -> Site {
    let mut sources = Sources::new();
    let file = sources.add("site", include_str!("../../../latchline/src/demo/site.toml"));
    let (name, catalogue) = latchline_site::builtin_catalogue();
    let catalogue = sources.add(name, catalogue);
    latchline_site::resolve(&sources, file, &[catalogue]).site.unwrap()
}

/// Every box stands below the one whose port its run starts at, one step further in.
#[test]
fn a_box_stands_below_what_feeds_it() {
    let site = demo();
    let assessment = latchline_assess::assess(&site);
    let mut looked_at = 0;
    for block in blocks(&site, &assessment, false, Lettering::default()) {
        for (index, row) in block.rows.iter().enumerate() {
            let Some(item) = site.boxes.iter().position(|item| item.id.as_str() == row.name) else {
                continue;
            };
            let fed_by = site
                .runs
                .iter()
                .find(|run| run.sections.iter().any(|section| section.to == RunStop::BoxInput(item)))
                .map(|run| match run.from {
                    RunStart::Supply(at) => site.supplies[at].id.to_string(),
                    RunStart::Port { box_index, .. } => site.boxes[box_index].id.to_string(),
                    RunStart::Station(at) => site.stations[at].id.to_string(),
                });
            let above = block.rows[..index].iter().rev().find(|above| above.indent < row.indent);
            assert_eq!(above.map(|above| above.name.clone()), fed_by, "{}", row.name);
            looked_at += 1;
        }
    }
    assert_eq!(looked_at, site.boxes.len());
}

/// What leaves much of a sheet empty is enlarged; nothing leaves the sheet for it.
#[test]
fn a_small_site_fills_its_overview() {
    let site = demo();
    let assessment = latchline_assess::assess(&site);
    let scenes = overview(&site, &assessment, &SheetOptions::default());
    assert_eq!(scenes.len(), 1);
    let sheet = Area::new(0.0, 0.0, scenes[0].width_mm, scenes[0].height_mm);
    let mut largest = 0.0_f64;
    scenes[0].root.visit(&mut |node| {
        if let latchline_scene::Node::Text(text, _) = node {
            assert!(sheet.contains(&text.area()), "{} leaves the sheet", text.text);
            assert!(!text.text.contains('…'), "{} is cut short", text.text);
            if text.text == "B-D2" {
                largest = largest.max(text.size_mm);
            }
        }
    });
    assert!(largest > 1.15 * TEXT_MM, "{largest}");
}
