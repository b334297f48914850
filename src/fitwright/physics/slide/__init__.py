"""The mechanics of a slide gate that an air cylinder works: forces, struts, frames, gaps. Numbers in, numbers out."""
