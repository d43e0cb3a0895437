using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace EdgeLens.Store.Migrations
{
    /// <inheritdoc />
    public partial class PageQueries : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_Verifications_PracticeCode",
                table: "Verifications");

            migrationBuilder.DropIndex(
                name: "IX_Stones_PracticeCode",
                table: "Stones");

            migrationBuilder.DropIndex(
                name: "IX_StoneCare_PracticeCode",
                table: "StoneCare");

            migrationBuilder.DropIndex(
                name: "IX_Sites_PracticeCode",
                table: "Sites");

            migrationBuilder.DropIndex(
                name: "IX_SignOffs_PracticeCode",
                table: "SignOffs");

            migrationBuilder.DropIndex(
                name: "IX_SharpeningPairs_PracticeCode",
                table: "SharpeningPairs");

            migrationBuilder.DropIndex(
                name: "IX_Procedures_PracticeCode",
                table: "Procedures");

            migrationBuilder.DropIndex(
                name: "IX_Practices_PracticeCode",
                table: "Practices");

            migrationBuilder.DropIndex(
                name: "IX_LensProfiles_PracticeCode",
                table: "LensProfiles");

            migrationBuilder.DropIndex(
                name: "IX_Instruments_PracticeCode",
                table: "Instruments");

            migrationBuilder.DropIndex(
                name: "IX_Inspections_PracticeCode_Instrument",
                table: "Inspections");

            migrationBuilder.DropIndex(
                name: "IX_Cassettes_PracticeCode",
                table: "Cassettes");

            migrationBuilder.CreateIndex(
                name: "IX_WorkingEnds_PracticeCode_Id",
                table: "WorkingEnds",
                columns: new[] { "PracticeCode", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_Verifications_PracticeCode_Id",
                table: "Verifications",
                columns: new[] { "PracticeCode", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_Stones_PracticeCode_Id",
                table: "Stones",
                columns: new[] { "PracticeCode", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_StoneCare_PracticeCode_Id",
                table: "StoneCare",
                columns: new[] { "PracticeCode", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_StateChanges_PracticeCode_Id",
                table: "StateChanges",
                columns: new[] { "PracticeCode", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_Sites_PracticeCode_Id",
                table: "Sites",
                columns: new[] { "PracticeCode", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_SignOffs_PracticeCode_Id",
                table: "SignOffs",
                columns: new[] { "PracticeCode", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_SharpeningPairs_PracticeCode_Id",
                table: "SharpeningPairs",
                columns: new[] { "PracticeCode", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_EndTags_PracticeCode_Id",
                table: "EndTags",
                columns: new[] { "PracticeCode", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_Sharpenings_PracticeCode_Id",
                table: "Sharpenings",
                columns: new[] { "PracticeCode", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_Sharpenings_PracticeCode_Stone_Day",
                table: "Sharpenings",
                columns: new[] { "PracticeCode", "Stone", "Day" });

            migrationBuilder.CreateIndex(
                name: "IX_RodTests_PracticeCode_Id",
                table: "RodTests",
                columns: new[] { "PracticeCode", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_Procedures_PracticeCode_Id",
                table: "Procedures",
                columns: new[] { "PracticeCode", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_Practices_PracticeCode_Id",
                table: "Practices",
                columns: new[] { "PracticeCode", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_Placements_PracticeCode_Id",
                table: "Placements",
                columns: new[] { "PracticeCode", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_LensProfiles_PracticeCode_Id",
                table: "LensProfiles",
                columns: new[] { "PracticeCode", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_Instruments_PracticeCode_Id",
                table: "Instruments",
                columns: new[] { "PracticeCode", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_Inspections_PracticeCode_Id",
                table: "Inspections",
                columns: new[] { "PracticeCode", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_Inspections_PracticeCode_Instrument_End_Day",
                table: "Inspections",
                columns: new[] { "PracticeCode", "Instrument", "End", "Day" });

            migrationBuilder.CreateIndex(
                name: "IX_Cassettes_PracticeCode_Id",
                table: "Cassettes",
                columns: new[] { "PracticeCode", "Id" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_WorkingEnds_PracticeCode_Id",
                table: "WorkingEnds");

            migrationBuilder.DropIndex(
                name: "IX_Verifications_PracticeCode_Id",
                table: "Verifications");

            migrationBuilder.DropIndex(
                name: "IX_Stones_PracticeCode_Id",
                table: "Stones");

            migrationBuilder.DropIndex(
                name: "IX_StoneCare_PracticeCode_Id",
                table: "StoneCare");

            migrationBuilder.DropIndex(
                name: "IX_StateChanges_PracticeCode_Id",
                table: "StateChanges");

            migrationBuilder.DropIndex(
                name: "IX_Sites_PracticeCode_Id",
                table: "Sites");

            migrationBuilder.DropIndex(
                name: "IX_SignOffs_PracticeCode_Id",
                table: "SignOffs");

            migrationBuilder.DropIndex(
                name: "IX_SharpeningPairs_PracticeCode_Id",
                table: "SharpeningPairs");

            migrationBuilder.DropIndex(
                name: "IX_EndTags_PracticeCode_Id",
                table: "EndTags");

            migrationBuilder.DropIndex(
                name: "IX_Sharpenings_PracticeCode_Id",
                table: "Sharpenings");

            migrationBuilder.DropIndex(
                name: "IX_Sharpenings_PracticeCode_Stone_Day",
                table: "Sharpenings");

            migrationBuilder.DropIndex(
                name: "IX_RodTests_PracticeCode_Id",
                table: "RodTests");

            migrationBuilder.DropIndex(
                name: "IX_Procedures_PracticeCode_Id",
                table: "Procedures");

            migrationBuilder.DropIndex(
                name: "IX_Practices_PracticeCode_Id",
                table: "Practices");

            migrationBuilder.DropIndex(
                name: "IX_Placements_PracticeCode_Id",
                table: "Placements");

            migrationBuilder.DropIndex(
                name: "IX_LensProfiles_PracticeCode_Id",
                table: "LensProfiles");

            migrationBuilder.DropIndex(
                name: "IX_Instruments_PracticeCode_Id",
                table: "Instruments");

            migrationBuilder.DropIndex(
                name: "IX_Inspections_PracticeCode_Id",
                table: "Inspections");

            migrationBuilder.DropIndex(
                name: "IX_Inspections_PracticeCode_Instrument_End_Day",
                table: "Inspections");

            migrationBuilder.DropIndex(
                name: "IX_Cassettes_PracticeCode_Id",
                table: "Cassettes");

            migrationBuilder.CreateIndex(
                name: "IX_Verifications_PracticeCode",
                table: "Verifications",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_Stones_PracticeCode",
                table: "Stones",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_StoneCare_PracticeCode",
                table: "StoneCare",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_Sites_PracticeCode",
                table: "Sites",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_SignOffs_PracticeCode",
                table: "SignOffs",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_SharpeningPairs_PracticeCode",
                table: "SharpeningPairs",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_Procedures_PracticeCode",
                table: "Procedures",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_Practices_PracticeCode",
                table: "Practices",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_LensProfiles_PracticeCode",
                table: "LensProfiles",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_Instruments_PracticeCode",
                table: "Instruments",
                column: "PracticeCode");

            migrationBuilder.CreateIndex(
                name: "IX_Inspections_PracticeCode_Instrument",
                table: "Inspections",
                columns: new[] { "PracticeCode", "Instrument" });

            migrationBuilder.CreateIndex(
                name: "IX_Cassettes_PracticeCode",
                table: "Cassettes",
                column: "PracticeCode");
        }
    }
}
