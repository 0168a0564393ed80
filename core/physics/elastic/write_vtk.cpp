#include "physics/elastic/write_vtk.h"

#include "base/diagnostic.h"
#include "base/numbers.h"

namespace tacksquare::elastic {

namespace {

constexpr int kVtkTriangle = 5, kVtkQuad = 9;

std::string array(const std::string& type, const std::string& name, int components,
                  const std::string& values) {
  return "<DataArray type=\"" + type + "\" Name=\"" + name + "\"" +
         (components > 1 ? " NumberOfComponents=\"" + std::to_string(components) + "\"" : std::string()) +
         " format=\"ascii\">\n" + values + "</DataArray>\n";
}

} // namespace

std::string write_vtk(const Plates& plates, const Shape& shape, const VtkOptions& options) {
  std::string points, moved, connectivity, offsets, types, faces;
  std::size_t n_points = 0, n_cells = 0, corners = 0;
  const auto vector = [&](std::string& to, Vec3 v) {
    to += rounded(v.x, options.step_mm) + " " + rounded(v.y, options.step_mm) + " " +
          rounded(v.z, options.step_mm) + "\n";
  };
  for (std::size_t f = 0; f < plates.faces(); ++f) {
    if (!plates.has(f)) continue;
    if (!shape.at(f).allFinite()) throw NumericalFailure("the shape of a face has no finite figures");
    const Placement& frame = plates.frame(f);
    const shell::PlateMesh& mesh = plates.plate(f).mesh();
    for (const shell::Cell& cell : mesh.cells) {
      for (std::size_t i = 0; i < cell.corners; ++i)
        connectivity += std::to_string(n_points + cell.node[i]) + (i + 1 == cell.corners ? "\n" : " ");
      corners += cell.corners;
      offsets += std::to_string(corners) + "\n";
      types += std::to_string(cell.corners == 3 ? kVtkTriangle : kVtkQuad) + "\n";
      faces += std::to_string(f) + "\n";
    }
    for (std::size_t i = 0; i < mesh.nodes.size(); ++i) {
      vector(points, frame.at(mesh.nodes[i]));
      const auto u = shape[f].segment<3>(static_cast<Index>(i) * shell::kNodeFreedoms) * options.scale;
      vector(moved, frame.u * u(0) + frame.v * u(1) + frame.normal() * u(2));
    }
    n_points += mesh.nodes.size();
    n_cells += mesh.cells.size();
  }
  return "<?xml version=\"1.0\"?>\n"
         "<VTKFile type=\"UnstructuredGrid\" version=\"0.1\" "
         "byte_order=\"LittleEndian\">\n<UnstructuredGrid>\n"
         "<Piece NumberOfPoints=\"" +
         std::to_string(n_points) + "\" NumberOfCells=\"" + std::to_string(n_cells) +
         "\">\n<PointData Vectors=\"displacement\">\n" + array("Float64", "displacement", 3, moved) +
         "</PointData>\n<CellData Scalars=\"face\">\n" + array("Int32", "face", 1, faces) +
         "</CellData>\n<Points>\n" + array("Float64", "Points", 3, points) + "</Points>\n<Cells>\n" +
         array("Int64", "connectivity", 1, connectivity) + array("Int64", "offsets", 1, offsets) +
         array("UInt8", "types", 1, types) + "</Cells>\n</Piece>\n</UnstructuredGrid>\n</VTKFile>\n";
}

} // namespace tacksquare::elastic
