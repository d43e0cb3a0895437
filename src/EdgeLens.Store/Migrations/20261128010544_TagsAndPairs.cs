using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace EdgeLens.Store.Migrations
{
    /// <inheritdoc />
    public partial class TagsAndPairs : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "Moment",
                table: "Inspections",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "EndTags",
                columns: table => new
                {
                    Id = table.Column<long>(nullable: false)
                        .Annotation("Sqlite:Autoincrement", true).Annotation("Npgsql:ValueGenerationStrategy", Npgsql.EntityFrameworkCore.PostgreSQL.Metadata.NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Number = table.Column<int>(nullable: false),
                    PracticeCode = table.Column<string>(nullable: false),
                    EnteredAt = table.Column<DateTimeOffset>(nullable: false),
                    By = table.Column<string>(nullable: false),
                    Corrects = table.Column<long>(nullable: true),
                    CorrectionReason = table.Column<string>(nullable: true),
                    IsWithdrawal = table.Column<bool>(nullable: false),
                    Instrument = table.Column<string>(nullable: false),
                    End = table.Column<int>(nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_EndTags", x => x.Id);
                    table.ForeignKey(
                        name: "FK_EndTags_EndTags_Corrects",
                        column: x => x.Corrects,
                        principalTable: "EndTags",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "SharpeningPairs",
                columns: table => new
                {
                    Id = table.Column<long>(nullable: false)
                        .Annotation("Sqlite:Autoincrement", true).Annotation("Npgsql:ValueGenerationStrategy", Npgsql.EntityFrameworkCore.PostgreSQL.Metadata.NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    SharpeningId = table.Column<long>(nullable: false),
                    BeforeInspectionId = table.Column<long>(nullable: false),
                    InspectionId = table.Column<long>(nullable: false),
                    PracticeCode = table.Column<string>(nullable: false),
                    EnteredAt = table.Column<DateTimeOffset>(nullable: false),
                    By = table.Column<string>(nullable: false),
                    Corrects = table.Column<long>(nullable: true),
                    CorrectionReason = table.Column<string>(nullable: true),
                    IsWithdrawal = table.Column<bool>(nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SharpeningPairs", x => x.Id);
                    table.ForeignKey(
                        name: "FK_SharpeningPairs_Inspections_BeforeInspectionId",
                        column: x => x.BeforeInspectionId,
                        principalTable: "Inspections",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_SharpeningPairs_Inspections_InspectionId",
                        column: x => x.InspectionId,
                        principalTable: "Inspections",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_SharpeningPairs_SharpeningPairs_Corrects",
                        column: x => x.Corrects,
                        principalTable: "SharpeningPairs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_SharpeningPairs_Sharpenings_SharpeningId",
                        column: x => x.SharpeningId,
                        principalTable: "Sharpenings",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_EndTags_Corrects",
                table: "EndTags",
                column: "Corrects",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_EndTags_PracticeCode_Instrument",
                table: "EndTags",
                columns: new[] { "PracticeCode", "Instrument" });

            migrationBuilder.CreateIndex(
                name: "IX_SharpeningPairs_BeforeInspectionId",
                table: "SharpeningPairs",
                column: "BeforeInspectionId");

            migrationBuilder.CreateIndex(
                name: "IX_SharpeningPairs_Corrects",
                table: "SharpeningPairs",
                column: "Corrects",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_SharpeningPairs_InspectionId",
                table: "SharpeningPairs",
                column: "InspectionId");

            migrationBuilder.CreateIndex(
                name: "IX_SharpeningPairs_PracticeCode",
                table: "SharpeningPairs",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_SharpeningPairs_SharpeningId",
                table: "SharpeningPairs",
                column: "SharpeningId");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "EndTags");

            migrationBuilder.DropTable(
                name: "SharpeningPairs");

            migrationBuilder.DropColumn(
                name: "Moment",
                table: "Inspections");
        }
    }
}
