//! Draws a site file: the elevation, as SVG and DXF beside each other.
#![allow(clippy::disallowed_methods, clippy::unwrap_used, clippy::print_stdout)]
use latchline_drawing::{ElevationOptions, Palette, dxf, elevation, svg};
fn main() {
    let path = std::env::args().nth(1).unwrap();
    let out = std::env::args().nth(2).unwrap();
    let sheet = std::env::args().nth(3).map(|s| s.parse().unwrap());
    let mut sources = latchline_finding::Sources::new();
    let site = sources.add(path.clone(), std::fs::read_to_string(&path).unwrap());
    let (name, text) = latchline_site::builtin_catalogue();
    let catalogue = sources.add(name, text);
    let resolved = latchline_site::resolve(&sources, site, &[catalogue]);
    for finding in resolved.findings.iter().take(5) { println!("{finding:?}"); }
    let site = resolved.site.unwrap();
    let assessment = latchline_assess::assess(&site);
    let started = std::time::Instant::now();
    let scenes = elevation(&site, &assessment, &ElevationOptions { sheet, revision: Some("3f9a1c2e".into()), date: Some("2026-11-25".into()) });
    println!("{} stations, {} sheets, {:?}", site.stations.len(), scenes.len(), started.elapsed());
    for (n, scene) in scenes.iter().enumerate() {
        std::fs::write(format!("{out}-{}.svg", n + 1), svg::svg(scene, Palette::Light)).unwrap();
        std::fs::write(format!("{out}-{}.dxf", n + 1), dxf::dxf(scene)).unwrap();
    }
}
