//! Blocks of known heights on sheets of known size.

use super::*;

/// Two columns of 100 mm.
fn room() -> Room {
    let content = Area::new(10.0, 20.0, 190.0, 100.0);
    Room { content, columns: 2, beside: (content.x, content.bottom()) }
}

fn block(count: usize) -> Extent {
    Extent::Column(Column { pieces_mm: vec![5.0; count], continued_mm: 6.0, has_figures: false })
}

/// Every piece once and in order; nothing below the end of a column or over something else.
fn is_sound(parts: &[Extent], spots: &[Spot]) {
    for (number, part) in parts.iter().enumerate() {
        let Extent::Column(block) = part else { continue };
        let placed: Vec<usize> =
            spots.iter().filter(|spot| spot.part == number).flat_map(|spot| spot.pieces.clone()).collect();
        assert_eq!(placed, (0..block.pieces_mm.len()).collect::<Vec<_>>());
    }
    let mut ends = std::collections::BTreeMap::new();
    for spot in spots {
        let Extent::Column(block) = &parts[spot.part] else { continue };
        let end = ends.entry((spot.sheet, spot.column)).or_insert(room().content.y);
        assert!(spot.y >= *end - 1e-6, "one block over another");
        *end = spot.y + block.height_mm(spot.pieces.clone());
        assert!(*end <= room().bottom(spot.column, 1) + 1e-3, "a block leaves its column");
    }
}

#[test]
fn a_block_higher_than_a_sheet_goes_on_once_a_column() {
    let parts = [block(50), block(3)];
    let (spots, sheets) = fill(&parts, room(), true, NotesRoom::default());
    is_sound(&parts, &spots);
    assert_eq!(sheets, 2, "265 mm of pieces stand on two sheets of 200 mm");
    let mut columns: Vec<_> =
        spots.iter().filter(|spot| spot.part == 0).map(|spot| (spot.sheet, spot.column)).collect();
    let parts_of_it = columns.len();
    columns.dedup();
    assert_eq!(columns.len(), parts_of_it, "it goes on twice in one column");
}

#[test]
fn columns_of_a_single_sheet_are_level() {
    let parts = [block(6), block(5), block(5), block(6)];
    let (spots, sheets) = fill(&parts, room(), false, NotesRoom::default());
    is_sound(&parts, &spots);
    assert_eq!(sheets, 1);
    assert_eq!(spots.iter().filter(|spot| spot.column == 0).count(), 2, "no column is empty");
}

#[test]
fn what_fits_by_height_takes_one_sheet() {
    // 2 × 97 mm of room is used but for what goes on: no whole block beside another does that.
    let parts = [block(11), block(11), block(11)];
    let (_, whole) = fill(&parts, room(), false, NotesRoom::default());
    let (spots, torn) = fill(&parts, room(), true, NotesRoom::default());
    is_sound(&parts, &spots);
    assert_eq!((whole, torn), (2, 1));
}

#[test]
fn notes_stand_over_the_first_columns_of_every_sheet() {
    let parts = [block(16), block(16), block(16)];
    let notes = NotesRoom { first_mm: 0.0, others_mm: 12.0, span: 1 };
    let (spots, sheets) = fill(&parts, room(), true, notes);
    is_sound(&parts, &spots);
    assert_eq!(sheets, 2);
    let on_second = spots.iter().filter(|spot| (spot.sheet, spot.column) == (1, 0));
    let highest = on_second.map(|spot| spot.y).fold(f64::INFINITY, f64::min);
    assert!((highest - room().content.y - 12.0).abs() < 1e-6, "{highest}");
}
