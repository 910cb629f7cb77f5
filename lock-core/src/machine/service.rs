//! Service: nothing is taken or released once something failed, until a boot, or until a
//! first warden begins anew.

use crate::port::Fault;

/// The region of service.
pub(super) struct Service(Option<Fault>);

impl Service {
    pub(super) const fn at_boot(fault: Option<Fault>) -> Self {
        Self(fault)
    }

    /// What failed first, if anything did.
    pub(super) const fn fault(&self) -> Option<Fault> {
        self.0
    }

    /// Whether the lock works.
    pub(super) const fn is_over(&self) -> bool {
        self.0.is_none()
    }

    /// Whether anybody is enrolled, as far as a boot could tell.
    pub(super) const fn in_use(&self) -> bool {
        !matches!(self.0, Some(Fault::Blank | Fault::Layout))
    }

    pub(super) fn begin(&mut self, fault: Fault) {
        self.0 = self.0.or(Some(fault));
    }

    /// A first warden began.
    pub(super) const fn end(&mut self) {
        self.0 = None;
    }
}
