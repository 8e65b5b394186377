//! What commands say of their own, one file a command; what several say stands where the matter is.

mod accept;
mod addresses;
mod as_built;
mod ask;
mod catalogue;
mod compare;
mod fix;
mod headroom;
mod new;
mod old_cable;
mod pack;
mod phone;
mod reach;
mod readings;
mod serve;
mod store;
mod written;

pub use accept::AcceptWords;
pub use addresses::{AddressHead, AddressWords};
pub use as_built::AsBuiltWords;
pub use ask::{AskHead, AskWords};
pub use catalogue::{CatalogueHead, CatalogueWords};
pub use compare::{CompareHead, CompareKey, CompareWords};
pub use fix::FixWords;
pub use headroom::HeadroomWords;
pub use new::NewWords;
pub use old_cable::{OldCableHead, OldCableWords};
pub use pack::PackWords;
pub use phone::PhoneWords;
pub use reach::{LimitWord, ReachWords};
pub use readings::{ReadingsHead, ReadingsWords};
pub use serve::ServeWords;
pub use store::StoreWords;
pub use written::WrittenWords;
