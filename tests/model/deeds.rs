use crate::walk::Walker;
#[derive(Clone, Debug)]
pub(crate) enum Deed {}
impl Deed { pub(crate) fn act(&self, _: &mut Walker<'_>) {} }
