//! How cells look.

use crate::pages::BODY_POINTS;
use rust_xlsxwriter::{Color, Format, FormatAlign, FormatBorder, FormatUnderline};

const INK: Color = Color::RGB(0x1F_2A_37);
const LINK: Color = Color::RGB(0x0B_4F_9E);
const HEADING_FILL: Color = Color::RGB(0xDD_E5_EE);
const GROUP_FILL: Color = Color::RGB(0xF1_F4_F8);
const WRITE_IN_FILL: Color = Color::RGB(0xFF_FB_E6);
const WITHIN_FILL: Color = Color::RGB(0xC6_EF_CE);
const NO_NUMBER_FILL: Color = Color::RGB(0xFF_C0_00);
/// Ground of what must not be overlooked.
pub(super) const ERROR_FILL: Color = Color::RGB(0xB0_10_10);
/// Size of the line that says that the site fails.
pub(super) const ERROR_POINTS: f64 = 18.0;

/// Every look, made once.
pub(super) struct Looks {
    pub(super) title: Format,
    pub(super) origin: Format,
    pub(super) error: Format,
    pub(super) note: Format,
    pub(super) heading: Format,
    pub(super) group: Format,
    pub(super) text: Format,
    pub(super) missing: Format,
    pub(super) write_in: Format,
    pub(super) total: Format,
    pub(super) link: Format,
    pub(super) reading_outside: Format,
    pub(super) reading_within: Format,
    pub(super) reading_no_number: Format,
}

impl Looks {
    pub(super) fn new() -> Self {
        let base = || Format::new().set_font_name("Arial").set_font_size(BODY_POINTS).set_font_color(INK);
        let boxed = || {
            let edge = Color::RGB(0xB8_C2_CC);
            base().set_border(FormatBorder::Thin).set_border_color(edge).set_align(FormatAlign::Top)
        };
        Looks {
            title: base().set_font_size(15).set_bold(),
            origin: base().set_font_size(8).set_text_wrap().set_align(FormatAlign::Top),
            error: base()
                .set_bold()
                .set_font_size(ERROR_POINTS)
                .set_font_color(Color::White)
                .set_text_wrap()
                .set_align(FormatAlign::VerticalCenter)
                .set_background_color(ERROR_FILL),
            note: base().set_text_wrap().set_align(FormatAlign::Top),
            heading: boxed().set_bold().set_text_wrap().set_background_color(HEADING_FILL),
            group: boxed()
                .set_bold()
                .set_background_color(GROUP_FILL)
                .set_text_wrap()
                .set_align(FormatAlign::VerticalCenter),
            text: boxed().set_text_wrap(),
            missing: boxed().set_align(FormatAlign::Center),
            write_in: boxed().set_text_wrap().set_background_color(WRITE_IN_FILL),
            total: boxed().set_bold().set_border_top(FormatBorder::Medium),
            link: base().set_font_color(LINK).set_underline(FormatUnderline::Single),
            // What a rule changes of a cell that it hits: fonts of a rule have no name and no size.
            reading_outside: Format::new()
                .set_bold()
                .set_font_color(Color::White)
                .set_background_color(ERROR_FILL),
            reading_within: Format::new().set_font_color(INK).set_background_color(WITHIN_FILL),
            reading_no_number: Format::new().set_font_color(INK).set_background_color(NO_NUMBER_FILL),
        }
    }

    /// A number format on a base look.
    pub(super) fn number(base: &Format, decimals: u8, unit: Option<&str>) -> Format {
        let digits = usize::from(decimals.min(9));
        let mut code = if digits == 0 { String::from("0") } else { format!("0.{}", "0".repeat(digits)) };
        if let Some(unit) = unit.filter(|unit| !unit.is_empty()) {
            code = format!("{code}\" {unit}\"");
        }
        // `_)` leaves the width of a bracket to the next column.
        base.clone().set_num_format(code + "_)").set_align(FormatAlign::Right)
    }
}
