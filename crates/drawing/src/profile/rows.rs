//! Panels in rows on sheets.

use latchline_scene::Area;

const LEAST_PANEL_MM: f64 = 80.0;
const LEAST_PANEL_HEIGHT_MM: f64 = 38.0;
const MOST_PANEL_HEIGHT_MM: f64 = 80.0;
const HEADING_MM: f64 = 7.0;
const GAP_MM: f64 = 5.0;

/// What stands on a sheet, and where.
pub(super) enum Laid {
    /// What names the source of this panel, with this upper edge.
    Heading(usize, f64),
    /// This panel.
    Panel(usize, Area),
}

/// Panels in rows, sheet by sheet. Each source begins a row of its own, and is named there and on every sheet where it goes on.
pub(super) fn lay_out(sources: &[&str], content: Area) -> Vec<Vec<Laid>> {
    let across = (((content.width + GAP_MM) / (LEAST_PANEL_MM + GAP_MM)) as usize).max(1);
    let width = (content.width + GAP_MM) / across as f64 - GAP_MM;
    // Two sources may begin on a sheet.
    let free = content.height - 2.0 * HEADING_MM + GAP_MM;
    let rows = (free / (LEAST_PANEL_HEIGHT_MM + GAP_MM)).floor().max(1.0);
    let height = (free / rows - GAP_MM).min(MOST_PANEL_HEIGHT_MM);
    let mut sheets: Vec<Vec<Laid>> = vec![Vec::new()];
    let (mut y, mut column) = (content.y, 0);
    let mut source: Option<&str> = None;
    for (panel, of_panel) in sources.iter().enumerate() {
        let new_source = source != Some(of_panel);
        if column > 0 && (new_source || column == across) {
            y += height + GAP_MM;
            column = 0;
        }
        let heading = if new_source { HEADING_MM } else { 0.0 };
        if column == 0 && y + heading + height > content.bottom() + 1e-6 && y > content.y + HEADING_MM {
            sheets.push(Vec::new());
            y = content.y;
        }
        let Some(sheet) = sheets.last_mut() else { break };
        if new_source || (y == content.y && column == 0) {
            sheet.push(Laid::Heading(panel, y));
            y += HEADING_MM;
            source = Some(of_panel);
        }
        let x = content.x + column as f64 * (width + GAP_MM);
        sheet.push(Laid::Panel(panel, Area::new(x, y, width, height)));
        column += 1;
    }
    sheets
}
